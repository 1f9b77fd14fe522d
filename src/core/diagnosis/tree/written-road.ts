import type { FaultTree, TreeNode } from '../../model/fault-tree.ts';
import { followAnswer } from '../../answer/lead.ts';
import { findNode, isStep, linksFrom, stagesTold, stagesUpTo } from '../../model/node.ts';
import { chooseAction, quick } from '../choose-action.ts';
import { type PlanningModel, type PlanningState, takeAction } from '../model.ts';
import type { Evidence } from '../problem.ts';
import { measureCeiling } from '../repair-order.ts';
import type { TreeProblem } from './derive-problem.ts';

/** What the order written in the tree costs. Minutes. */
export interface WrittenValue {
  readonly expectedMinutes: number;
  readonly worstMinutes: number;
}

/** Words that answer a node already, by node id; for a path `good` or the first bad stage. */
export type KnownWords = ReadonlyMap<string, string>;

/** A road less probable than this is not walked on but priced as repairing in order. */
const leastProbability = 1e-4;

/**
 * Follows the tree as written from a node on: every check as it comes, each stage of a path from the first to the last, and at an end
 * its repair; where that does not cure, the other repairs in the best order, or giving up. With the goal to isolate it is over at an end,
 * or where one end is nearly sure.
 * `known` answers are not asked again. Cost: one belief for each road with a probability of at least one in ten thousand.
 */
export function followWritten(
  { tree, problem, checks }: Pick<TreeProblem, 'tree' | 'problem' | 'checks'>,
  model: PlanningModel,
  start: PlanningState,
  from: string,
  known: KnownWords = new Map(),
): WrittenValue {
  const positions = new Map(checks.map(({ id }, position) => [id, position]));
  const causePositions = new Map(problem.causes.map(({ id }, position) => [id, position]));

  const rest = (state: PlanningState): WrittenValue => {
    if (model.goal === 'isolate') return nothing;
    const { inOrderMinutes } = measureCeiling(model, state);
    return { expectedMinutes: inOrderMinutes, worstMinutes: inOrderMinutes };
  };

  const walk = (id: string, state: PlanningState, probability: number): WrittenValue => {
    const node = findNode(tree, id);
    if (node === undefined || probability < leastProbability || isOver(model, state)) return rest(state);
    if (node.kind === 'check') {
      const answered = known.get(id);
      const to = (word: string): string => followAnswer(linksFrom(node), undefined, word) ?? '';
      if (answered !== undefined && to(answered) !== '') return walk(to(answered), state, probability);
      return ask(id, state, probability, to);
    }
    if (node.kind === 'path') {
      const answered = known.get(id);
      const to = answered === undefined ? undefined : followAnswer(linksFrom(node), undefined, answered);
      return to === undefined ? probe(id, 0, state, probability) : walk(to, state, probability);
    }
    return end(id, state, probability);
  };

  const ask = (
    checkId: string,
    state: PlanningState,
    probability: number,
    next: (word: string) => string,
  ): WrittenValue => {
    const position = positions.get(checkId);
    if (position === undefined) return rest(state);
    // Done and not known: a reading too close to call, which is taken again.
    const { minutes, branches } = takeAction(model, state, { kind: 'check', check: position });
    return join(
      minutes,
      branches.map((branch) => ({
        probability: branch.probability,
        value: walk(
          next(checks[position]?.words[branch.outcome] ?? ''),
          branch.state,
          probability * branch.probability,
        ),
      })),
    );
  };

  const probe = (pathId: string, index: number, state: PlanningState, probability: number): WrittenValue => {
    const path = findNode(tree, pathId);
    if (path?.kind !== 'path') return rest(state);
    const stage = path.stages[index];
    if (isOver(model, state)) return rest(state);
    if (stage === undefined) return walk(path.good, state, probability);
    const position = positions.get(`${pathId}/${stage.id}`);
    if (position === undefined || state.done[position] === 1) return probe(pathId, index + 1, state, probability);
    const { minutes, branches } = takeAction(model, state, { kind: 'check', check: position });
    return join(
      minutes,
      branches.map((branch) => ({
        probability: branch.probability,
        value:
          checks[position]?.words[branch.outcome] === 'bad'
            ? walk(stage.fault, branch.state, probability * branch.probability)
            : probe(pathId, index + 1, branch.state, probability * branch.probability),
      })),
    );
  };

  const end = (id: string, state: PlanningState, probability: number): WrittenValue => {
    const cause = causePositions.get(id);
    const canRepair =
      model.goal === 'repair' &&
      cause !== undefined &&
      state.tried[cause] !== 1 &&
      (model.repairMinutes[cause] ?? Number.POSITIVE_INFINITY) < Number.POSITIVE_INFINITY;
    if (!canRepair || probability < leastProbability) return rest(state);
    const { minutes, branches } = takeAction(model, state, { kind: 'repair', cause });
    return join(
      minutes,
      branches.map((branch) => ({ probability: branch.probability, value: rest(branch.state) })),
    );
  };

  return walk(from, start, 1);
}

/**
 * Follows the engine the same way to an isolated end: checks until one end is nearly sure or none separates what is left.
 * Roads less probable than one in ten thousand count as isolated.
 */
export function followIsolation(model: PlanningModel, start: PlanningState): WrittenValue {
  const walk = (state: PlanningState, probability: number): WrittenValue => {
    if (probability < leastProbability || isOver(model, state)) return nothing;
    const { action } = chooseAction(model, state, quick);
    if (action.kind === 'stop') return nothing;
    const { minutes, branches } = takeAction(model, state, action);
    return join(
      minutes,
      branches.map((branch) => ({
        probability: branch.probability,
        value: walk(branch.state, probability * branch.probability),
      })),
    );
  };
  return walk(start, 1);
}

/** An end this probable counts as isolated. Our judgement. */
const nearlySure = 0.95;

function isOver(model: PlanningModel, state: PlanningState): boolean {
  return model.goal === 'isolate' && state.belief.some((probability) => probability >= nearlySure);
}

const nothing: WrittenValue = { expectedMinutes: 0, worstMinutes: 0 };

function join(
  minutes: number,
  branches: readonly { readonly probability: number; readonly value: WrittenValue }[],
): WrittenValue {
  return {
    expectedMinutes: branches.reduce(
      (sum, { probability, value }) => sum + probability * value.expectedMinutes,
      minutes,
    ),
    worstMinutes: minutes + branches.reduce((most, { value }) => Math.max(most, value.worstMinutes), 0),
  };
}

/**
 * Where the tree as written leads with the answers known: ids from the start to the first node that is not answered, that one included.
 * The last one is the page's own next step. Where the order is the safety, the road goes on past a cause that was `repaired` without a
 * cure: the check that led to it counts as right, so that what stands after it is still asked.
 */
export function walkRoad(tree: FaultTree, known: KnownWords, repaired: readonly string[] = []): readonly string[] {
  const passed = new Set(tree.order === 'as-written' ? repaired : []);
  const road: string[] = [];
  let id = tree.nodes[0]?.id;
  while (id !== undefined && !road.includes(id)) {
    road.push(id);
    const node = findNode(tree, id);
    const word = known.get(id);
    const to = node === undefined || word === undefined ? undefined : followAnswer(linksFrom(node), undefined, word);
    id = node !== undefined && to !== undefined && passed.has(to) ? (findOnward(tree, node) ?? to) : to;
  }
  return road;
}

/** The next check that a node leads to, by the first of its answers that leads to one. */
function findOnward(tree: FaultTree, node: TreeNode): string | undefined {
  return linksFrom(node).find(({ to }) => isStep(findNode(tree, to)))?.to;
}

/** Ids of the nodes that the answers lead to as the tree is written. */
export function leadsOf(tree: FaultTree, read: readonly ReadAnswer[]): ReadonlySet<string | undefined> {
  return new Set(
    read.map(({ node: id, stage, word }) => {
      const node = findNode(tree, id);
      return node === undefined || word === undefined ? undefined : followAnswer(linksFrom(node), stage, word);
    }),
  );
}

/** Families of instruments that the answers say are not at hand. */
export function listLacking(tree: FaultTree, read: readonly ReadAnswer[]): ReadonlySet<string> {
  return new Set(
    read.flatMap(({ node: id, word }) => {
      const node = findNode(tree, id);
      if (node?.kind !== 'check' || word === undefined) return [];
      return node.outcomes.find(({ when }) => when.includes(word))?.without ?? [];
    }),
  );
}

/**
 * What each node was answered, as the tree's own links know it: an outcome word for a check; for a path `good` where its last stages are,
 * or the first bad stage where those that feed it are good. Later answers to one node count.
 */
export function listKnownWords(tree: FaultTree, read: readonly ReadAnswer[]): KnownWords {
  const known = new Map<string, string>();
  for (const node of tree.nodes) {
    if (node.kind === 'check') {
      const word = read.findLast((answer) => answer.node === node.id)?.word;
      if (word !== undefined) known.set(node.id, word);
    }
    if (node.kind !== 'path') continue;
    const ofPath = read.filter((answer) => answer.node === node.id && answer.word !== undefined);
    const whole = ofPath.findLast(({ stage }) => stage === undefined)?.word;
    const words = new Map(ofPath.flatMap(({ stage, word }) => (stage === undefined ? [] : [[stage, word]])));
    // A stage counts as good where a stage that it feeds is good.
    const isGood = (stage: string): boolean =>
      node.stages.some(({ id }) => words.get(id) === 'in' && stagesUpTo(node, id).has(stage));
    const firstBad = node.stages.find(({ id, from }) => words.get(id) === 'bad' && from.every(isGood));
    const isFed = new Set(node.stages.flatMap(({ from }) => from));
    const lasts = node.stages.filter(({ id }) => !isFed.has(id));
    const word = firstBad?.id ?? (lasts.every(({ id }) => isGood(id)) ? 'good' : whole);
    if (word !== undefined) known.set(node.id, word);
  }
  return known;
}

/** An answer that was understood, as the engine takes it. */
export interface ReadAnswer {
  readonly node: string;
  /** Stage, where the node is a path. */
  readonly stage: string | undefined;
  /** As a person would say it. */
  readonly said: string;
  /** Outcome word it amounts to (`in` or `bad` at a stage); undefined where a reading is too close to call or nothing was seen. */
  readonly word: string | undefined;
  /** One piece for each check of the problem that it speaks of; none where it is no evidence. */
  readonly evidence: readonly Evidence[];
}

/**
 * Checks, as `path/stage`, that the answers leave nothing to find at: stages before one that is good, and stages that do not feed one that
 * is bad, whether it was read there or told from elsewhere (`says-before`, `says-after`). Those stages themselves are among them, and checks
 * that read the same target at the same test point as one of them.
 */
export function listCleared(tree: FaultTree, read: readonly ReadAnswer[]): ReadonlySet<string> {
  const told = read.flatMap(({ node: id, stage, word }) => {
    const node = findNode(tree, id);
    return node === undefined || word === undefined ? [] : stagesTold(node, stage, word);
  });
  const stages = told.flatMap(({ path: id, stage, isGood }) => {
    const path = findNode(tree, id);
    if (path?.kind !== 'path') return [];
    const before = stagesUpTo(path, stage);
    return path.stages
      .filter((one) => one.id === stage || before.has(one.id) === isGood)
      .map((one) => ({ id: `${id}/${one.id}`, spot: one.point && `${one.target} at ${one.point}` }));
  });
  const spots = new Set(stages.map(({ spot }) => spot));
  const twins = tree.nodes.filter(
    (node) =>
      node.kind === 'check' && node.target !== undefined && spots.has(`${node.target.target} at ${node.target.point}`),
  );
  return new Set([...stages, ...twins].map(({ id }) => id));
}

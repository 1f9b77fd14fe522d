import { findNode, followLink } from '../../model/node.ts';
import { chooseAction } from '../choose-action.ts';
import { quick } from '../choose-action.ts';
import { measureCeiling } from '../repair-order.ts';
import type { PlanningModel, PlanningState } from '../model.ts';
import { takeAction } from '../model.ts';
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
      const to = (word: string): string => followLink(node, word) ?? '';
      if (answered !== undefined && to(answered) !== '') return walk(to(answered), state, probability);
      return ask(id, state, probability, to);
    }
    if (node.kind === 'path') {
      const answered = known.get(id);
      const to = answered === undefined ? undefined : followLink(node, answered);
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

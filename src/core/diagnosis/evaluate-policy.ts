import { chooseAction } from './choose-action.ts';
import type { Effort } from './effort.ts';
import type { ChosenAction } from './solve-state.ts';
import { listLiveCauses, listUsefulChecks } from './reduce-state.ts';
import { sumSetupMinutes, type Action, type PlanningModel, type PlanningState } from './planning-model.ts';
import { measureCeiling } from './policy-ceiling.ts';
import { createStateQueue } from './state-queue.ts';
import { takeAction } from './take-action.ts';

/** What following the engine from a state costs. Minutes. */
export interface PolicyValue {
  readonly first: Action;
  readonly expectedMinutes: number;
  /** True where every state that the policy reaches was visited; `atLeast` and `atMost` are then `expectedMinutes`. */
  readonly isExact: boolean;
  readonly atLeast: number;
  readonly atMost: number;
  /** Most minutes that the policy can take; an upper bound where not exact. */
  readonly worstMinutes: number;
  /** Different states that were reached. */
  readonly stateCount: number;
}

/** One state that the policy reaches. Values are for the state by itself, not weighted by how probable it is. */
interface PolicyNode {
  readonly state: PlanningState;
  readonly action: Action | undefined;
  readonly value: NodeValue | undefined;
  readonly minutes: number;
  readonly branches: readonly Branch[];
}

interface Branch {
  readonly probability: number;
  readonly key: string;
}

interface NodeValue {
  readonly expected: number;
  readonly least: number;
  readonly most: number;
  readonly worst: number;
}

const NOTHING: NodeValue = { expected: 0, least: 0, most: 0, worst: 0 };

/**
 * Follows the engine from a state through everything that can happen, asking chooseAction in every state that is reached.
 * States are visited in order of probability; those reached along several ways are visited once. With more than `mostStates` states
 * the rest is bounded: at least each cause's own repair or the stop, at most every check, every repair and the stop.
 * The estimate then takes repairing in the best order for what was not visited.
 */
export function evaluatePolicy(
  model: PlanningModel,
  start: PlanningState,
  effort: Effort,
  mostStates: number,
): PolicyValue {
  const nodes = new Map<string, PolicyNode>();
  const waiting = createStateQueue();
  const startKey = writeKey(start);
  waiting.add(startKey, start, 1);
  let first: ChosenAction | undefined;
  let solvedStates = 0;
  while (waiting.size() > 0 && (nodes.size === 0 || nodes.size + waiting.size() + solvedStates <= mostStates)) {
    const { key, state, probability } = waiting.takeLikeliest();
    const chosen = chooseAction(model, state, effort);
    first ??= chosen;
    const node = expandNode(model, state, chosen);
    nodes.set(key, node.node);
    solvedStates += Math.max(0, (chosen.solution?.stateCount ?? 1) - 1);
    for (const [index, next] of node.next.entries()) {
      const branch = node.node.branches[index];
      if (branch !== undefined && !nodes.has(branch.key))
        waiting.add(branch.key, next, probability * branch.probability);
    }
  }
  const unvisited = waiting.states();
  const values = new Map<string, NodeValue>();
  const measure = (key: string): NodeValue => {
    const before = values.get(key);
    if (before !== undefined) return before;
    const node = nodes.get(key);
    const state = unvisited.get(key);
    const value =
      node === undefined ? (state === undefined ? NOTHING : boundState(model, state)) : joinBranches(node, measure);
    values.set(key, value);
    return value;
  };
  const value = measure(startKey);
  const isExact = unvisited.size === 0;
  return {
    first: first?.action ?? { kind: 'stop' },
    expectedMinutes: value.expected,
    isExact,
    atLeast: isExact ? value.expected : value.least,
    atMost: isExact ? value.expected : value.most,
    worstMinutes: value.worst,
    stateCount: nodes.size + unvisited.size + solvedStates,
  };
}

function joinBranches(node: PolicyNode, measure: (key: string) => NodeValue): NodeValue {
  if (node.value !== undefined) return node.value;
  let { expected, least, most, worst } = NOTHING;
  for (const branch of node.branches) {
    const value = measure(branch.key);
    expected += branch.probability * value.expected;
    least += branch.probability * value.least;
    most += branch.probability * value.most;
    worst = Math.max(worst, value.worst);
  }
  return {
    expected: node.minutes + expected,
    least: node.minutes + least,
    most: node.minutes + most,
    worst: node.minutes + worst,
  };
}

interface ExpandedNode {
  readonly node: PolicyNode;
  /** The states of the node's branches. */
  readonly next: readonly PlanningState[];
}

function expandNode(model: PlanningModel, state: PlanningState, { action, solution }: ChosenAction): ExpandedNode {
  const leaf = (value: NodeValue): ExpandedNode => ({
    node: { state, action, value, minutes: 0, branches: [] },
    next: [],
  });
  if (solution !== undefined) {
    const { expectedMinutes, worstMinutes } = solution;
    return leaf({ expected: expectedMinutes, least: expectedMinutes, most: expectedMinutes, worst: worstMinutes });
  }
  if (action.kind === 'stop') {
    const minutes = model.goal === 'repair' ? model.giveUpMinutes : 0;
    return leaf({ expected: minutes, least: minutes, most: minutes, worst: minutes });
  }
  const { minutes, branches } = takeAction(model, state, action);
  return {
    node: {
      state,
      action,
      value: undefined,
      minutes,
      branches: branches.map(({ probability, state: next }) => ({ probability, key: writeKey(next) })),
    },
    next: branches.map((branch) => branch.state),
  };
}

/** Bounds and an estimate for a state that was reached but not visited. */
function boundState(model: PlanningModel, state: PlanningState): NodeValue {
  const live = listLiveCauses(state.belief);
  const isRepair = model.goal === 'repair';
  let everything = isRepair ? model.giveUpMinutes : 0;
  let needs = 0;
  for (const check of listUsefulChecks(model, state, live)) {
    everything += model.checkMinutes[check] ?? 0;
    needs |= model.checkSetups[check] ?? 0;
  }
  let least = 0;
  for (const cause of isRepair ? live : []) {
    const minutes = model.repairMinutes[cause] ?? Number.POSITIVE_INFINITY;
    const canTry = state.tried[cause] !== 1 && minutes < Number.POSITIVE_INFINITY;
    if (canTry) {
      everything += minutes;
      needs |= model.repairSetups[cause] ?? 0;
    }
    const own = canTry ? minutes + (1 - (model.repairSuccess[cause] ?? 0)) * model.giveUpMinutes : model.giveUpMinutes;
    least += (state.belief[cause] ?? 0) * Math.min(model.giveUpMinutes, own);
  }
  everything += sumSetupMinutes(model.setupMinutes, needs, state.paid);
  if (!isRepair) return { expected: everything / 2, least, most: everything, worst: everything };
  const ceiling = measureCeiling(model, state);
  const most = Math.min(everything, ceiling.minutes);
  // Half way between what a repair at the first go costs and repairing in order: the checks that are left save about half.
  return { expected: Math.min(most, (least + ceiling.inOrderMinutes) / 2), least, most, worst: everything };
}

/** States that agree in 40 bits of every probability are one: they differ by the rounding of another order. */
function writeKey(state: PlanningState): string {
  let key = `${state.paid}`;
  for (const cause of listLiveCauses(state.belief)) key += `,${cause}:${(state.belief[cause] ?? 0).toPrecision(11)}`;
  return `${key}|${state.done.join('')}|${state.tried.join('')}`;
}

import { chooseAction, type Effort } from './choose-action.ts';
import {
  type Action,
  listLiveCauses,
  listUsefulChecks,
  type PlanningModel,
  type PlanningState,
  stop,
  sumSetupMinutes,
  takeAction,
} from './model.ts';
import { measureCeiling } from './repair-order.ts';

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

/** Minutes from one state on, not weighted by how probable it is. */
interface StateValue {
  readonly expected: number;
  readonly least: number;
  readonly most: number;
  readonly worst: number;
}

/** A step that the policy takes, and the keys of the states it leads to. */
interface TakenStep {
  readonly minutes: number;
  readonly branches: readonly { readonly probability: number; readonly key: string }[];
}

/**
 * Where between a repair at the first go and repairing in order a state that was not visited lies. Measured: with 300 states visited, the
 * minutes of forty trees are then 6 off those of tests/bench/trees.ts, root mean square; half way it was 8, and 6 too few on average.
 */
const unvisitedShare = 0.6;

const nothing: StateValue = { expected: 0, least: 0, most: 0, worst: 0 };

/**
 * Follows the engine from a state through everything that can happen, asking chooseAction in every state that is reached.
 * States are visited in order of probability; those reached along several ways are visited once. With more than `mostStates` states
 * the rest is bounded: at least each cause's own repair or the stop, at most every check, every repair and the stop.
 * The estimate then lies between the two for what was not visited.
 */
export function evaluatePolicy(
  model: PlanningModel,
  start: PlanningState,
  effort: Effort,
  mostStates: number,
): PolicyValue {
  const taken = new Map<string, TakenStep>();
  const values = new Map<string, StateValue>();
  const waiting = createStateQueue();
  const startKey = writeKey(start);
  waiting.add(startKey, start, 1);
  let first: Action | undefined;
  let visited = 0;
  while (waiting.size() > 0 && (visited === 0 || visited + waiting.size() <= mostStates)) {
    const { key, state, probability } = waiting.takeLikeliest();
    const { action, solution } = chooseAction(model, state, effort);
    first ??= action;
    visited += Math.max(1, solution?.stateCount ?? 1);
    if (solution !== undefined) {
      const { expectedMinutes: expected, worstMinutes: worst } = solution;
      values.set(key, { expected, least: expected, most: expected, worst });
    } else if (action.kind === 'stop') {
      const minutes = model.goal === 'repair' ? model.giveUpMinutes : 0;
      values.set(key, { expected: minutes, least: minutes, most: minutes, worst: minutes });
    } else {
      const { minutes, branches } = takeAction(model, state, action);
      const next = branches.map((branch) => ({ ...branch, key: writeKey(branch.state) }));
      taken.set(key, {
        minutes,
        branches: next.map((branch) => ({ probability: branch.probability, key: branch.key })),
      });
      for (const branch of next) {
        if (!taken.has(branch.key) && !values.has(branch.key))
          waiting.add(branch.key, branch.state, probability * branch.probability);
      }
    }
  }
  const unvisited = waiting.states();
  const measure = (key: string): StateValue => {
    const before = values.get(key);
    if (before !== undefined) return before;
    const step = taken.get(key);
    const state = unvisited.get(key);
    const value =
      step === undefined ? (state === undefined ? nothing : boundState(model, state)) : joinBranches(step, measure);
    values.set(key, value);
    return value;
  };
  const value = measure(startKey);
  const isExact = unvisited.size === 0;
  return {
    first: first ?? stop,
    expectedMinutes: value.expected,
    isExact,
    atLeast: isExact ? value.expected : value.least,
    atMost: isExact ? value.expected : value.most,
    worstMinutes: value.worst,
    stateCount: visited + unvisited.size,
  };
}

function joinBranches({ minutes, branches }: TakenStep, measure: (key: string) => StateValue): StateValue {
  let { expected, least, most, worst } = nothing;
  for (const { probability, key } of branches) {
    const value = measure(key);
    expected += probability * value.expected;
    least += probability * value.least;
    most += probability * value.most;
    worst = Math.max(worst, value.worst);
  }
  return { expected: minutes + expected, least: minutes + least, most: minutes + most, worst: minutes + worst };
}

/** Bounds and an estimate for a state that was reached but not visited. */
function boundState(model: PlanningModel, state: PlanningState): StateValue {
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
  const expected = least + unvisitedShare * (ceiling.inOrderMinutes - least);
  return { expected: Math.min(most, expected), least, most, worst: everything };
}

/** States that agree in 40 bits of every probability are one: they differ by the rounding of another order. */
function writeKey(state: PlanningState): string {
  let key = `${state.paid}`;
  for (const cause of listLiveCauses(state.belief)) key += `,${cause}:${(state.belief[cause] ?? 0).toPrecision(11)}`;
  return `${key}|${state.done.join('')}|${state.tried.join('')}`;
}

/** A state that was reached but not visited. */
interface WaitingState {
  readonly key: string;
  readonly state: PlanningState;
  readonly probability: number;
}

/** A heap of states, the likeliest first, each key once. */
interface StateQueue {
  readonly add: (key: string, state: PlanningState, probability: number) => void;
  readonly takeLikeliest: () => WaitingState;
  readonly size: () => number;
  readonly states: () => ReadonlyMap<string, PlanningState>;
}

/** Makes an empty queue. Taking from an empty one is a mistake of the caller and throws. */
function createStateQueue(): StateQueue {
  const heap: WaitingState[] = [];
  const states = new Map<string, PlanningState>();
  const probabilityAt = (place: number): number => heap[place]?.probability ?? -1;
  const swap = (first: number, second: number): void => {
    const kept = heap[first];
    const other = heap[second];
    if (kept === undefined || other === undefined) return;
    heap[first] = other;
    heap[second] = kept;
  };
  return {
    add(key, state, probability) {
      if (states.has(key)) return;
      states.set(key, state);
      let place = heap.push({ key, state, probability }) - 1;
      while (place > 0 && probabilityAt((place - 1) >> 1) < probabilityAt(place)) {
        swap(place, (place - 1) >> 1);
        place = (place - 1) >> 1;
      }
    },
    takeLikeliest() {
      const top = heap[0];
      const last = heap.pop();
      if (top === undefined || last === undefined) throw new RangeError('the queue is empty');
      states.delete(top.key);
      if (heap.length === 0) return top;
      heap[0] = last;
      for (let place = 0; ;) {
        const left = 2 * place + 1;
        const larger = probabilityAt(left + 1) > probabilityAt(left) ? left + 1 : left;
        if (probabilityAt(larger) <= probabilityAt(place)) return top;
        swap(place, larger);
        place = larger;
      }
    },
    size: () => heap.length,
    states: () => states,
  };
}

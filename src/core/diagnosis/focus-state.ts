import type { PlanningModel, PlanningState } from './planning-model.ts';
import { createRepairOrder } from './repair-order.ts';
import { listLiveCauses, reduceState, type ReducedProblem } from './reduce-state.ts';
import type { ScreenedCheck } from './screen-checks.ts';

/** A state cut down to what a look ahead can afford. */
export interface FocusedState {
  readonly problem: ReducedProblem;
  /** Model position of the repair that stands for "one of the rest", where causes were cut off; −1 otherwise. */
  readonly restRepair: number;
}

export interface FocusLimits {
  readonly mostCauses: number;
  readonly mostChecks: number;
}

/** Causes beyond this probability together are looked at as one. */
const KEPT_PROBABILITY = 0.995;
/** Isolation goes on until nothing separates what is left, so it needs more checks in view. */
const MOST_ISOLATING_CHECKS = 24;

/**
 * Keeps the likeliest causes and the checks that tell most per minute. For a repair, the causes cut off stay in the problem as a
 * single last cause: their rows are averaged, its minutes are those of repairing them one after the other.
 * For isolation every cause stays: it is the cutting that has to be seen.
 */
export function focusState(
  model: PlanningModel,
  state: PlanningState,
  screened: readonly ScreenedCheck[],
  limits: FocusLimits,
): FocusedState {
  const mostChecks = model.goal === 'isolate' ? Math.max(limits.mostChecks, MOST_ISOLATING_CHECKS) : limits.mostChecks;
  const checks = screened.slice(0, mostChecks).map((item) => item.check);
  const live = listLiveCauses(state.belief);
  const likeliestFirst = live.toSorted(
    (first, second) =>
      (state.belief[second] ?? 0) - (state.belief[first] ?? 0) ||
      (model.repairRanks[first] ?? 0) - (model.repairRanks[second] ?? 0),
  );
  const keptCount = model.goal === 'isolate' ? live.length : countKept(likeliestFirst, state.belief, limits.mostCauses);
  if (keptCount >= live.length - 1)
    return { problem: reduceState(model, state, { causes: live, checks }), restRepair: -1 };
  const kept = reduceState(model, state, { causes: likeliestFirst.slice(0, keptCount), checks });
  const rest = reduceState(model, state, { causes: likeliestFirst.slice(keptCount), checks: [] });
  return joinRest(model, kept, rest);
}

function countKept(likeliestFirst: readonly number[], belief: Float64Array, most: number): number {
  let sum = 0;
  for (const [count, cause] of likeliestFirst.entries()) {
    if (count >= most || sum >= KEPT_PROBABILITY) return count;
    sum += belief[cause] ?? 0;
  }
  return likeliestFirst.length;
}

function joinRest(model: PlanningModel, kept: ReducedProblem, rest: ReducedProblem): FocusedState {
  const mass = rest.belief.reduce((sum, probability) => sum + probability, 0);
  const order = createRepairOrder(rest);
  const minutes = order.measure(rest.belief, new Uint8Array(rest.causeCount), rest.setupMinutes.length - 1) / mass;
  const first = order.first();
  const causeCount = kept.causeCount + 1;
  return {
    restRepair: rest.causes[first] ?? -1,
    problem: {
      ...kept,
      causeCount,
      causes: Int32Array.of(...kept.causes, -1),
      belief: Float64Array.of(...kept.belief, mass),
      likelihoods: kept.likelihoods.map((columns, check) => {
        const every = model.likelihoods[kept.checks[check] ?? 0] ?? columns;
        const joined = new Float64Array((kept.outcomeCounts[check] ?? 0) * causeCount);
        for (let outcome = 0; outcome < (kept.outcomeCounts[check] ?? 0); outcome++) {
          for (let cause = 0; cause < kept.causeCount; cause++) {
            joined[outcome * causeCount + cause] = columns[outcome * kept.causeCount + cause] ?? 0;
          }
          let mean = 0;
          for (let cause = 0; cause < rest.causeCount; cause++) {
            mean += (rest.belief[cause] ?? 0) * (every[outcome * model.causeCount + (rest.causes[cause] ?? 0)] ?? 0);
          }
          joined[outcome * causeCount + kept.causeCount] = mean / mass;
        }
        return joined;
      }),
      repairMinutes: Float64Array.of(...kept.repairMinutes, first < 0 ? Number.POSITIVE_INFINITY : minutes),
      repairSuccess: Float64Array.of(...kept.repairSuccess, 1),
      repairSetups: Int32Array.of(...kept.repairSetups, 0),
      repairRanks: Int32Array.of(...kept.repairRanks, 2 ** 30),
      isCrisp: false,
    },
  };
}

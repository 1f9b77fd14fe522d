import { createLookAhead, type LookAheadLimits } from './look-ahead.ts';
import {
  type Action,
  type CutModel,
  cutModel,
  isLess,
  listLiveCauses,
  measureEntropyBits,
  type PlanningModel,
  type PlanningState,
  rankOf,
  sum,
  sumSetupMinutes,
  toAction,
} from './model.ts';
import { createRepairOrder, firstOfFixedOrder, keepsCeiling, measureCeiling } from './repair-order.ts';
import { type ScreenedCheck, screenChecks } from './screen-checks.ts';
import { type ExactSolution, firstUsefulCheck, type SearchLimits, solveExactly } from './solve-exactly.ts';

/** How much work one suggestion may take. Counted in states and branches, never in seconds, so that it is the same everywhere. */
export interface Effort extends SearchLimits {
  /** Causes and checks in view where the state is too large to search. */
  readonly mostCauses: number;
  readonly mostChecks: number;
  /** Undefined: one step and an estimate. */
  readonly lookAhead: LookAheadLimits | undefined;
  /** How many checks are looked at with the look ahead. */
  readonly followedChecks: number;
  /** Whether steps are held under the ceiling (measureCeiling) that bounds a plan too large to visit. */
  readonly isBounded: boolean;
}

/** For the press of a button: 200 causes and 300 checks within 5 ms on a processor slowed four times. */
export const quick: Effort = {
  crispBits: 9,
  noisyBits: 9,
  mostCauses: 16,
  mostChecks: 10,
  lookAhead: undefined,
  followedChecks: 0,
  isBounded: false,
};

/**
 * For the background and the command line. A wider view costs more and is not better: with 40 causes and 24 checks the plans of
 * tests/bench/planner.ts take 2 to 8 % longer, as the estimate then counts on more checks than are ever made.
 */
export const thorough: Effort = {
  crispBits: 22,
  noisyBits: 18,
  mostCauses: 12,
  mostChecks: 10,
  lookAhead: { leastProbability: 0.04, mostChecks: 4 },
  followedChecks: 4,
  isBounded: true,
};

export interface ChosenAction {
  readonly action: Action;
  /** Present where the state space was searched completely: the action is optimal, and so is all that follows. */
  readonly solution: ExactSolution | undefined;
}

/** Causes beyond this probability together are looked at as one. */
const keptProbability = 0.995;
/** Isolation goes on until nothing separates what is left, so it needs more checks in view. */
const mostIsolatingChecks = 24;

/**
 * Chooses the next step in a state: by complete search where `effort` reaches, else by looking ahead.
 * It is a function of the state alone, so following it step by step is one policy, whatever path led to the state.
 */
export function chooseAction(model: PlanningModel, state: PlanningState, effort: Effort): ChosenAction {
  const solution = solveExactly(model, state, effort);
  if (solution !== undefined) return { action: solution.first, solution };
  const screened = screenChecks(model, state);
  const action = pickWithin(model, state, screened, effort);
  // The base policies are no better than they are, so a look ahead may see no way that is cheaper than stopping where there is one.
  if (action.kind !== 'stop' || effort.lookAhead === undefined) return { action, solution: undefined };
  return { action: pickWithin(model, state, screened, { ...quick, isBounded: effort.isBounded }), solution: undefined };
}

function pickWithin(
  model: PlanningModel,
  state: PlanningState,
  screened: readonly ScreenedCheck[],
  effort: Effort,
): Action {
  const { cut, restRepair } = focus(model, state, screened, effort);
  const candidates = listCandidates(cut.model, effort);
  const ceiling = effort.isBounded && model.goal === 'repair' ? measureCeiling(model, state) : undefined;
  while (candidates.length > 0) {
    const { step } = takeLeast(candidates);
    let action = toAction(cut.model, step);
    if (action.kind === 'check') action = { kind: 'check', check: cut.checks[action.check] ?? 0 };
    else if (action.kind === 'repair') {
      const cause = cut.causes[action.cause] ?? -1;
      action = { kind: 'repair', cause: cause < 0 ? restRepair : cause };
    }
    if (ceiling === undefined || keepsCeiling(model, state, action, ceiling)) return action;
  }
  return model.goal === 'isolate' ? firstUsefulCheck(model, state) : firstOfFixedOrder(model, state);
}

/** A state cut down to what a look ahead can afford. */
interface FocusedState {
  readonly cut: CutModel;
  /** The repair that stands for "one of the rest", where causes were cut off; −1 otherwise. */
  readonly restRepair: number;
}

/**
 * Keeps the likeliest causes and the checks that tell most per minute. For a repair, the causes cut off stay in the model as a
 * single last cause: their rows are averaged, its minutes are those of repairing them one after the other.
 * For isolation every cause stays: it is the cutting that has to be seen.
 */
function focus(
  model: PlanningModel,
  state: PlanningState,
  screened: readonly ScreenedCheck[],
  effort: Effort,
): FocusedState {
  const isIsolation = model.goal === 'isolate';
  const mostChecks = isIsolation ? Math.max(effort.mostChecks, mostIsolatingChecks) : effort.mostChecks;
  const checks = screened.slice(0, mostChecks).map((item) => item.check);
  const live = listLiveCauses(state.belief);
  const likeliestFirst = live.toSorted(
    (first, second) =>
      (state.belief[second] ?? 0) - (state.belief[first] ?? 0) ||
      (model.repairRanks[first] ?? 0) - (model.repairRanks[second] ?? 0),
  );
  const keptCount = isIsolation ? live.length : countKept(likeliestFirst, state.belief, effort.mostCauses);
  if (keptCount >= live.length - 1) return { cut: cutModel(model, state, { causes: live, checks }), restRepair: -1 };
  const kept = cutModel(model, state, { causes: likeliestFirst.slice(0, keptCount), checks });
  const rest = cutModel(model, state, { causes: likeliestFirst.slice(keptCount), checks });
  return joinRest(kept, rest);
}

function countKept(likeliestFirst: readonly number[], belief: Float64Array, most: number): number {
  let total = 0;
  for (const [count, cause] of likeliestFirst.entries()) {
    if (count >= most || total >= keptProbability) return count;
    total += belief[cause] ?? 0;
  }
  return likeliestFirst.length;
}

function joinRest({ model, causes, checks }: CutModel, rest: CutModel): FocusedState {
  const { weights } = rest.model;
  const mass = sum(weights);
  const order = createRepairOrder(rest.model);
  const everySetup = 2 ** rest.model.setupMinutes.length - 1;
  const minutes = order.measure(weights, new Uint8Array(weights.length), everySetup) / mass;
  const first = order.first();
  const meanRows = model.likelihoods.map((_, check) => {
    const columns = rest.model.likelihoods[check] ?? weights;
    return Array.from({ length: model.outcomeCounts[check] ?? 0 }, (_outcome, outcome) => {
      let mean = 0;
      for (let cause = 0; cause < weights.length; cause++)
        mean += (weights[cause] ?? 0) * (columns[outcome * weights.length + cause] ?? 0);
      return mean / mass;
    });
  });
  const causeCount = causes.length + 1;
  return {
    restRepair: rest.causes[first] ?? -1,
    cut: {
      causes: Int32Array.of(...causes, -1),
      checks,
      model: {
        ...model,
        causeCount,
        weights: Float64Array.of(...model.weights, mass),
        likelihoods: model.likelihoods.map((columns, check) => {
          const joined = new Float64Array((model.outcomeCounts[check] ?? 0) * causeCount);
          meanRows[check]?.forEach((mean, outcome) => {
            const start = outcome * causes.length;
            joined.set(columns.subarray(start, start + causes.length), outcome * causeCount);
            joined[outcome * causeCount + causes.length] = mean;
          });
          return joined;
        }),
        rowEntropies: model.rowEntropies.map((entropies, check) =>
          Float64Array.of(...entropies, measureEntropyBits(meanRows[check] ?? [])),
        ),
        repairMinutes: Float64Array.of(...model.repairMinutes, first < 0 ? Number.POSITIVE_INFINITY : minutes),
        repairSuccess: Float64Array.of(...model.repairSuccess, 1),
        repairSetups: Int32Array.of(...model.repairSetups, 0),
        repairRanks: Int32Array.of(...model.repairRanks, 2 ** 30),
      },
    },
  };
}

interface Candidate {
  /** Of the model in view: checks first, then repairs; below 0 to stop. */
  readonly step: number;
  readonly value: number;
  readonly rank: number;
}

function listCandidates(model: PlanningModel, effort: Effort): Candidate[] {
  const { checkCount, weights, giveUpMinutes } = model;
  const lookAhead = createLookAhead(model, effort.lookAhead ?? { leastProbability: 1, mostChecks: 0 });
  const toCandidate = (step: number, value: number): Candidate => ({ step, value, rank: rankOf(model, step) });
  const isIsolation = model.goal === 'isolate';
  const checks = Array.from({ length: checkCount }, (_, check) => toCandidate(check, lookAhead.estimate(check)));
  const repairs = listRepairs(model, lookAhead.firstRepair).map((cause) => checkCount + cause);
  const stops = isIsolation ? [] : [{ step: -1, value: giveUpMinutes * sum(weights), rank: 2 ** 31 }];
  if (effort.lookAhead === undefined)
    return [...checks, ...repairs.map((step) => toCandidate(step, lookAhead.estimate(step))), ...stops];
  // The checks come in order of information per minute; for isolation that order and the estimate's are both worth following.
  const byRate = isIsolation ? checks.slice(0, effort.followedChecks) : [];
  const followed = new Set([...byRate, ...sortByValue(checks).slice(0, effort.followedChecks)].map(({ step }) => step));
  return [...[...followed, ...repairs].map((step) => toCandidate(step, lookAhead.follow(step))), ...stops];
}

/** The repair that the order puts first, and the one with most cure per minute when every set-up is its own to pay. */
function listRepairs(
  { weights, repairMinutes, repairSuccess, repairSetups, setupMinutes }: PlanningModel,
  first: number,
): number[] {
  if (first < 0) return [];
  let alone = first;
  let bestRate = 0;
  weights.forEach((weight, cause) => {
    const minutes = (repairMinutes[cause] ?? 0) + sumSetupMinutes(setupMinutes, repairSetups[cause] ?? 0, 0);
    const rate = (weight * (repairSuccess[cause] ?? 0)) / Math.max(minutes, 1e-9);
    if (minutes === Number.POSITIVE_INFINITY || rate <= bestRate) return;
    alone = cause;
    bestRate = rate;
  });
  return [...new Set([first, alone])];
}

/** Takes the candidate of least value out of the list, ties to the lower id. */
function takeLeast(candidates: Candidate[]): Candidate {
  let best: Candidate = { step: -1, value: Number.POSITIVE_INFINITY, rank: Number.POSITIVE_INFINITY };
  for (const candidate of candidates) {
    if (isLess(best.value, candidate.value)) continue;
    if (isLess(candidate.value, best.value) || candidate.rank < best.rank) best = candidate;
  }
  candidates.splice(candidates.indexOf(best), 1);
  return best;
}

function sortByValue(candidates: readonly Candidate[]): Candidate[] {
  return candidates.toSorted((first, second) =>
    isLess(first.value, second.value) ? -1 : isLess(second.value, first.value) ? 1 : first.rank - second.rank,
  );
}

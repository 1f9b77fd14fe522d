import { isLess, type ExactSolution, type ReducedAction } from './exact-solution.ts';
import { focusState, type FocusLimits } from './focus-state.ts';
import { createLookAhead, type LookAhead, type LookAheadLimits } from './look-ahead.ts';
import { firstOfFixedOrder, keepsCeiling, measureCeiling } from './policy-ceiling.ts';
import type { Action, PlanningModel, PlanningState } from './planning-model.ts';
import { listLiveCauses, listUsefulChecks, reduceState, type ReducedProblem } from './reduce-state.ts';
import { screenChecks } from './screen-checks.ts';
import { measureCrispBits, solveCrisp } from './solve-crisp.ts';
import { measureNoisyBits, solveNoisy } from './solve-noisy.ts';

/** How much work one suggestion may take. Counted in states and branches, never in seconds, so that it is the same everywhere. */
export interface Effort {
  /** Largest state space, in bits, that is searched completely: where checks come out one way for each cause, and where they may mislead. */
  readonly crispBits: number;
  readonly noisyBits: number;
  readonly focus: FocusLimits;
  /** Undefined: one step and an estimate. */
  readonly lookAhead: LookAheadLimits | undefined;
  /** How many checks are looked at with the look ahead. */
  readonly followedChecks: number;
}

/** For the press of a button: 200 causes and 300 checks within 5 ms on a processor slowed four times. */
export const QUICK: Effort = {
  crispBits: 9,
  noisyBits: 9,
  focus: { mostCauses: 24, mostChecks: 12 },
  lookAhead: undefined,
  followedChecks: 0,
};

/** For the background and the command line. */
export const THOROUGH: Effort = {
  crispBits: 22,
  noisyBits: 18,
  focus: { mostCauses: 40, mostChecks: 24 },
  lookAhead: { leastProbability: 0.04, mostChecks: 4 },
  followedChecks: 6,
};

export interface ChosenAction {
  readonly action: Action;
  /** Present where the state space was searched completely: the action is optimal, and so is all that follows. */
  readonly solution: ExactSolution | undefined;
}

const STOP = { kind: 'stop' } as const;

/**
 * Chooses the next step in a state: by complete search where `effort` reaches, else by looking ahead.
 * It is a function of the state alone, so following it step by step is one policy, whatever path led to the state.
 */
export function chooseAction(model: PlanningModel, state: PlanningState, effort: Effort): ChosenAction {
  const solution = solveWithin(model, state, effort);
  if (solution !== undefined) return solution;
  const screened = screenChecks(model, state);
  const { problem, restRepair } = focusState(model, state, screened, effort.focus);
  const candidates = listCandidates(problem, effort);
  const ceiling = measureCeiling(model, state);
  while (candidates.length > 0) {
    const { action: reduced } = takeLeast(candidates);
    const named = toAction(problem, reduced);
    const action = named.kind === 'repair' && named.cause < 0 ? { kind: 'repair' as const, cause: restRepair } : named;
    if (model.goal === 'isolate' || keepsCeiling(model, state, action, ceiling)) return { action, solution: undefined };
  }
  return { action: model.goal === 'isolate' ? STOP : firstOfFixedOrder(model, state), solution: undefined };
}

function solveWithin(model: PlanningModel, state: PlanningState, effort: Effort): ChosenAction | undefined {
  const live = listLiveCauses(state.belief);
  // Each cause is at least one bit of a crisp problem, each check of a noisy one: a cheap way to see that neither is in reach.
  if (live.length > effort.crispBits && model.checkCount - sum(state.done) > effort.noisyBits) return undefined;
  const checks = listUsefulChecks(model, state, live);
  if (model.goal === 'isolate' && checks.length === 0)
    return { action: STOP, solution: { expectedMinutes: 0, worstMinutes: 0, stateCount: 1, first: STOP } };
  const problem = reduceState(model, state, { causes: live, checks });
  const solution =
    measureCrispBits(problem) <= effort.crispBits
      ? solveCrisp(problem)
      : measureNoisyBits(problem) <= effort.noisyBits
        ? solveNoisy(problem)
        : undefined;
  return solution === undefined ? undefined : { action: toAction(problem, solution.first), solution };
}

function toAction(problem: ReducedProblem, action: ReducedAction): Action {
  if (action.kind === 'check') return { kind: 'check', check: problem.checks[action.index] ?? 0 };
  return action.kind === 'repair' ? { kind: 'repair', cause: problem.causes[action.index] ?? -1 } : STOP;
}

interface Candidate {
  readonly action: ReducedAction;
  readonly value: number;
  readonly rank: number;
}

function listCandidates(problem: ReducedProblem, effort: Effort): Candidate[] {
  const lookAhead = createLookAhead(problem, effort.lookAhead ?? { leastProbability: 1, mostChecks: 0 });
  const checks = Array.from({ length: problem.checkCount }, (_, index): Candidate => {
    return {
      action: { kind: 'check', index },
      value: lookAhead.estimateCheck(index),
      rank: problem.checkRanks[index] ?? 0,
    };
  });
  const repairs = listRepairs(problem, lookAhead);
  const stops: Candidate[] = problem.isIsolation
    ? []
    : [{ action: STOP, value: problem.giveUpMinutes * sum(problem.belief), rank: 2 ** 31 }];
  if (effort.lookAhead === undefined) {
    return [
      ...checks,
      ...repairs.map((index) => toCandidate(problem, index, lookAhead.estimateRepair(index))),
      ...stops,
    ];
  }
  // The checks come in order of information per minute; for isolation that order and the estimate's are both worth following.
  const byRate = problem.isIsolation ? checks.slice(0, effort.followedChecks) : [];
  const followed = [...new Set([...byRate, ...sortByValue(checks).slice(0, effort.followedChecks)])];
  return [
    ...followed.map((candidate) =>
      candidate.action.kind === 'check'
        ? { ...candidate, value: lookAhead.followCheck(candidate.action.index) }
        : candidate,
    ),
    ...repairs.map((index) => toCandidate(problem, index, lookAhead.followRepair(index))),
    ...stops,
  ];
}

function toCandidate(problem: ReducedProblem, index: number, value: number): Candidate {
  return { action: { kind: 'repair', index }, value, rank: problem.repairRanks[index] ?? 0 };
}

/** The repair that the order puts first, and the one with most cure per minute when every set-up is its own to pay. */
function listRepairs(problem: ReducedProblem, lookAhead: LookAhead): number[] {
  if (problem.isIsolation || lookAhead.firstRepair < 0) return [];
  let alone = -1;
  let bestRate = 0;
  for (let cause = 0; cause < problem.causeCount; cause++) {
    const minutes = (problem.repairMinutes[cause] ?? 0) + (problem.setupMinutes[problem.repairSetups[cause] ?? 0] ?? 0);
    const rate = ((problem.belief[cause] ?? 0) * (problem.repairSuccess[cause] ?? 0)) / Math.max(minutes, 1e-9);
    if (minutes === Number.POSITIVE_INFINITY || rate <= bestRate) continue;
    alone = cause;
    bestRate = rate;
  }
  return [...new Set([lookAhead.firstRepair, alone])].filter((cause) => cause >= 0);
}

/** Takes the candidate of least value out of the list, ties to the lower id. */
function takeLeast(candidates: Candidate[]): Candidate {
  let best: Candidate = { action: STOP, value: Number.POSITIVE_INFINITY, rank: Number.POSITIVE_INFINITY };
  for (const candidate of candidates) {
    if (isLess(best.value, candidate.value)) continue;
    if (isLess(candidate.value, best.value) || candidate.rank < best.rank) best = candidate;
  }
  candidates.splice(candidates.indexOf(best), 1);
  return best;
}

function sum(values: Float64Array | Uint8Array): number {
  let total = 0;
  for (const value of values) total += value;
  return total;
}

function sortByValue(candidates: readonly Candidate[]): Candidate[] {
  return candidates.toSorted((first, second) =>
    isLess(first.value, second.value) ? -1 : isLess(second.value, first.value) ? 1 : first.rank - second.rank,
  );
}

import { type Effort, QUICK } from './effort.ts';
import { isLess, type ReducedAction } from './exact-solution.ts';
import { focusState } from './focus-state.ts';
import { createLookAhead, type LookAhead } from './look-ahead.ts';
import type { Action, PlanningModel, PlanningState } from './planning-model.ts';
import { firstOfFixedOrder, keepsCeiling, measureCeiling } from './policy-ceiling.ts';
import type { ReducedProblem } from './reduce-state.ts';
import { type ScreenedCheck, screenChecks } from './screen-checks.ts';
import { type ChosenAction, firstUsefulCheck, solveState, toAction } from './solve-state.ts';

const STOP = { kind: 'stop' } as const;

/**
 * Chooses the next step in a state: by complete search where `effort` reaches, else by looking ahead.
 * It is a function of the state alone, so following it step by step is one policy, whatever path led to the state.
 */
export function chooseAction(model: PlanningModel, state: PlanningState, effort: Effort): ChosenAction {
  const solution = solveState(model, state, effort);
  if (solution !== undefined) return solution;
  const screened = screenChecks(model, state);
  const action = pickWithin(model, state, screened, effort);
  // The base policies are no better than they are, so a look ahead may see no way that is cheaper than stopping where there is one.
  if (action.kind !== 'stop' || effort.lookAhead === undefined) return { action, solution: undefined };
  return { action: pickWithin(model, state, screened, { ...QUICK, isBounded: effort.isBounded }), solution: undefined };
}

function pickWithin(
  model: PlanningModel,
  state: PlanningState,
  screened: readonly ScreenedCheck[],
  effort: Effort,
): Action {
  const { problem, restRepair } = focusState(model, state, screened, effort.focus);
  const candidates = listCandidates(problem, effort);
  const ceiling = effort.isBounded && model.goal === 'repair' ? measureCeiling(model, state) : undefined;
  while (candidates.length > 0) {
    const { action: reduced } = takeLeast(candidates);
    const named = toAction(problem, reduced);
    const action = named.kind === 'repair' && named.cause < 0 ? { kind: 'repair' as const, cause: restRepair } : named;
    if (ceiling === undefined || keepsCeiling(model, state, action, ceiling)) return action;
  }
  return model.goal === 'isolate' ? firstUsefulCheck(model, state) : firstOfFixedOrder(model, state);
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

function sum(values: Float64Array): number {
  let total = 0;
  for (const value of values) total += value;
  return total;
}

function sortByValue(candidates: readonly Candidate[]): Candidate[] {
  return candidates.toSorted((first, second) =>
    isLess(first.value, second.value) ? -1 : isLess(second.value, first.value) ? 1 : first.rank - second.rank,
  );
}

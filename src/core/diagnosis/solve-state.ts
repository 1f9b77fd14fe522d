import type { Effort } from './effort.ts';
import type { ExactSolution, ReducedAction } from './exact-solution.ts';
import { type Action, type PlanningModel, type PlanningState, sumSetupMinutes } from './planning-model.ts';
import { listLiveCauses, listUsefulChecks, type ReducedProblem, reduceState } from './reduce-state.ts';
import { screenChecks } from './screen-checks.ts';
import { measureCrispBits, solveCrisp } from './solve-crisp.ts';
import { measureNoisyBits, solveNoisy } from './solve-noisy.ts';

export interface ChosenAction {
  readonly action: Action;
  /** Present where the state space was searched completely: the action is optimal, and so is all that follows. */
  readonly solution: ExactSolution | undefined;
}

const STOP = { kind: 'stop' } as const;

/** For causes so improbable that separating them tells next to nothing: isolation has to go on all the same. */
export function firstUsefulCheck(model: PlanningModel, state: PlanningState): Action {
  const useful = listUsefulChecks(model, state, listLiveCauses(state.belief));
  const [first] = useful.toSorted((one, other) => (model.checkRanks[one] ?? 0) - (model.checkRanks[other] ?? 0));
  return first === undefined ? STOP : { kind: 'check', check: first };
}

/** Searches a state completely where its state space is small enough; undefined where it is not. A step of any plan never makes it larger. */
export function solveState(model: PlanningModel, state: PlanningState, effort: Effort): ChosenAction | undefined {
  const live = listLiveCauses(state.belief);
  const isIsolation = model.goal === 'isolate';
  // Each cause to repair, else each check that separates, is at least one bit of the search: a cheap way to see that it is out of reach.
  if (!isIsolation && live.length > Math.max(effort.crispBits, effort.noisyBits + countHopeless(model, state, live)))
    return undefined;
  const checks = listUsefulChecks(model, state, live);
  if (isIsolation && checks.length === 0)
    return { action: STOP, solution: { expectedMinutes: 0, worstMinutes: 0, stateCount: 1, first: STOP } };
  if (isIsolation && excludesNothing(model, checks, live)) return solveWithoutExclusion(model, state, checks);
  if (isIsolation && live.length > effort.crispBits && checks.length > effort.noisyBits) return undefined;
  const problem = reduceState(model, state, { causes: live, checks });
  const solution =
    measureCrispBits(problem) <= effort.crispBits
      ? solveCrisp(problem)
      : measureNoisyBits(problem) <= effort.noisyBits
        ? solveNoisy(problem)
        : undefined;
  return solution === undefined ? undefined : { action: toAction(problem, solution.first), solution };
}

/** Causes without a repair left: they add no bit to a noisy search. */
function countHopeless(model: PlanningModel, state: PlanningState, live: readonly number[]): number {
  return live.filter((cause) => state.tried[cause] === 1 || model.repairMinutes[cause] === Number.POSITIVE_INFINITY)
    .length;
}

/** Whether no outcome of these checks can rule out one of the causes. */
function excludesNothing(model: PlanningModel, checks: readonly number[], causes: readonly number[]): boolean {
  return checks.every((check) => {
    const columns = model.likelihoods[check] ?? new Float64Array();
    for (let start = 0; start < columns.length; start += model.causeCount) {
      for (const cause of causes) if ((columns[start + cause] ?? 0) <= 0) return false;
    }
    return true;
  });
}

/** Where nothing can be ruled out, every check that separates is made in the end, so every order costs the same: best rate first. */
function solveWithoutExclusion(model: PlanningModel, state: PlanningState, checks: readonly number[]): ChosenAction {
  let minutes = 0;
  let needs = 0;
  for (const check of checks) {
    minutes += model.checkMinutes[check] ?? 0;
    needs |= model.checkSetups[check] ?? 0;
  }
  minutes += sumSetupMinutes(model.setupMinutes, needs, state.paid);
  return {
    action: bestByRate(model, state),
    solution: { expectedMinutes: minutes, worstMinutes: minutes, stateCount: 1, first: STOP },
  };
}

function bestByRate(model: PlanningModel, state: PlanningState): Action {
  const [best] = screenChecks(model, state);
  return best === undefined ? firstUsefulCheck(model, state) : { kind: 'check', check: best.check };
}

/** Names a step of a reduced problem by its position in the model; a cause of −1 stands for the rest (focusState). */
export function toAction(problem: ReducedProblem, action: ReducedAction): Action {
  if (action.kind === 'check') return { kind: 'check', check: problem.checks[action.index] ?? 0 };
  return action.kind === 'repair' ? { kind: 'repair', cause: problem.causes[action.index] ?? -1 } : STOP;
}

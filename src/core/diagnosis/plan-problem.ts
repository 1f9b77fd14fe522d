import { type Effort, thorough } from './choose-action.ts';
import { evaluatePolicy } from './evaluate-policy.ts';
import { type Contradiction, weighEvidence } from './evidence.ts';
import { type Action, buildModel, groupCauses, startState } from './model.ts';
import type { DiagnosisProblem } from './problem.ts';

/** The next step, by id. Null: nothing is left that separates the causes, or stopping is cheaper. */
export type PlannedStep = { readonly check: string } | { readonly repair: string } | { readonly probe: number } | null;

/** What following the engine from here means. Minutes. */
export interface Plan {
  /** In the order of the problem. */
  readonly posterior: readonly { readonly id: string; readonly probability: number }[];
  readonly next: PlannedStep;
  /** Expected minutes of the whole policy that the engine follows from here. */
  readonly expectedMinutes: number;
  /** Whether expectedMinutes was computed over every state that the policy reaches. */
  readonly exact: boolean;
  readonly atLeast: number;
  readonly atMost: number;
  /** Most minutes that the policy can take, the stop included; an upper bound where not exact. */
  readonly worstMinutes: number;
  /** Causes that can still be, in groups that no check left separates. */
  readonly groups: readonly (readonly string[])[];
}

export type PlanResult =
  | { readonly kind: 'plan'; readonly plan: Plan }
  | { readonly kind: 'contradiction'; readonly contradiction: Contradiction };

export interface PlanOptions {
  readonly effort?: Effort;
  /** States of the policy that are visited before it is estimated. */
  readonly mostStates?: number;
  /** Ids of checks that must not be suggested now (a stop caution, an instrument that is not there). */
  readonly without?: readonly string[];
}

/** A policy that reaches more states than this is estimated, with bounds. */
const defaultMostStates = 20_000;

/**
 * Plans from the problem's evidence: posterior, next step, what following the engine costs.
 * The expected minutes are those of the policy itself, visited state by state; asking again after every step follows that policy.
 * Contradictory evidence is returned as such.
 * @example
 * // the six-state matrix of Pattipati and Alexandridis 1990, goal isolate → expectedMinutes 2.18, next { check: 't2' }
 */
export function planProblem(problem: DiagnosisProblem, options: PlanOptions = {}): PlanResult {
  const posterior = weighEvidence(problem);
  if (posterior.kind === 'contradiction') return posterior;
  const model = buildModel(problem);
  const state = startState(problem, model, posterior.probabilities, problem.evidence, options.without);
  const value = evaluatePolicy(model, state, options.effort ?? thorough, options.mostStates ?? defaultMostStates);
  return {
    kind: 'plan',
    plan: {
      posterior: problem.causes.map((cause, index) => ({
        id: cause.id,
        probability: posterior.probabilities[index] ?? 0,
      })),
      next: nameAction(problem, value.first),
      expectedMinutes: value.expectedMinutes,
      exact: value.isExact,
      atLeast: value.atLeast,
      atMost: value.atMost,
      worstMinutes: value.worstMinutes,
      groups: groupCauses(model, state).map((group) => group.map((cause) => problem.causes[cause]?.id ?? '')),
    },
  };
}

/** A step by the ids of its problem. */
export function nameAction(problem: DiagnosisProblem, action: Action): PlannedStep {
  if (action.kind === 'check') return { check: problem.checks[action.check]?.id ?? '' };
  return action.kind === 'repair' ? { repair: problem.causes[action.cause]?.id ?? '' } : null;
}

/** The best plan from one state, found by looking at every state that any plan can reach. */
export interface ExactSolution {
  /** Expected minutes of the best plan. */
  readonly expectedMinutes: number;
  /** Most minutes that the best plan can take. */
  readonly worstMinutes: number;
  /** Different states that the best plan reaches. */
  readonly stateCount: number;
  /** First step of the best plan; `index` is a position in the reduced problem. */
  readonly first: ReducedAction;
}

export type ReducedAction =
  | { readonly kind: 'check'; readonly index: number }
  | { readonly kind: 'repair'; readonly index: number }
  | { readonly kind: 'stop' };

/**
 * Whether `value` beats `best` by more than rounding. Values within rounding are ties, and ties go to the lower id,
 * so that the order of causes and checks in a file cannot change the plan.
 * @example isLess(1 - 1e-15, 1) // false
 */
export function isLess(value: number, best: number): boolean {
  return value < best - 1e-11 * Math.max(1, Math.abs(best)) || (best === Number.POSITIVE_INFINITY && value < best);
}

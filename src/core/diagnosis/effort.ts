import type { FocusLimits } from './focus-state.ts';
import type { LookAheadLimits } from './look-ahead.ts';

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
  /** Whether steps are held under the ceiling (policy-ceiling.ts) that bounds a plan too large to visit. */
  readonly isBounded: boolean;
}

/** For the press of a button: 200 causes and 300 checks within 5 ms on a processor slowed four times. */
export const QUICK: Effort = {
  crispBits: 9,
  noisyBits: 9,
  focus: { mostCauses: 16, mostChecks: 10 },
  lookAhead: undefined,
  followedChecks: 0,
  isBounded: false,
};

/**
 * For the background and the command line. A wider view costs more and is not better: with 40 causes and 24 checks the plans of
 * tests/bench/planner.ts take 2 to 8 % longer, as the estimate then counts on more checks than are ever made.
 */
export const THOROUGH: Effort = {
  crispBits: 22,
  noisyBits: 18,
  focus: { mostCauses: 12, mostChecks: 10 },
  lookAhead: { leastProbability: 0.04, mostChecks: 4 },
  followedChecks: 4,
  isBounded: true,
};

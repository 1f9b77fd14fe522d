/**
 * A bare diagnosis problem: what may be wrong, what can be looked at, what can be done about it.
 * Minutes are working minutes of the person at the bench; probabilities are between 0 and 1.
 */
export interface DiagnosisProblem {
  readonly kind: 'problem';
  readonly causes: readonly ProblemCause[];
  readonly checks: readonly ProblemCheck[];
  readonly setups: readonly ProblemSetup[];
  readonly goal: Goal;
  /** Minutes to prove a repair, added to every repair that is tried. */
  readonly proveMinutes: number;
  /** Minutes charged for stopping with the fault still there. Without effect where the goal is to isolate. */
  readonly giveUpMinutes: number;
  readonly evidence: readonly Evidence[];
}

/** `isolate`: until no check separates what is left. `repair`: until a repair is proven, or stopping is cheaper. */
export type Goal = 'isolate' | 'repair';

export interface ProblemCause {
  readonly id: string;
  /** Relative to the other causes, at least 0; any scale. */
  readonly weight: number;
  /** Undefined where nothing can be done about this cause here: only checks and stopping are left. */
  readonly repairMinutes: number | undefined;
  /** Probability that the repair cures this cause, 0 to 1. */
  readonly repairSuccess: number;
  /** Ids of the set-ups that the repair needs. */
  readonly repairSetup: readonly string[];
}

export interface ProblemCheck {
  readonly id: string;
  readonly minutes: number;
  /** Ids of the set-ups that the check needs. */
  readonly setup: readonly string[];
  /** Names of the outcomes, at least one. */
  readonly outcomes: readonly string[];
  /** P(outcome | cause): one row for each cause in the problem's order, one number for each outcome, rows sum to 1. */
  readonly likelihood: readonly (readonly number[])[];
}

/** Something that several checks or repairs need and that is paid for once: the case open, the unit out. */
export interface ProblemSetup {
  readonly id: string;
  readonly minutes: number;
}

/** Something that is known already. The order of several pieces of evidence has no meaning. */
export type Evidence = OutcomeEvidence | ReadingEvidence | RepairedEvidence;

/** A check that came out one way, beyond doubt. */
export interface OutcomeEvidence {
  readonly kind: 'outcome';
  readonly check: string;
  readonly outcome: string;
}

/** A reading in doubt: how well each outcome of the check agrees with it, in any scale (virtual evidence). */
export interface ReadingEvidence {
  readonly kind: 'reading';
  readonly check: string;
  readonly likelihood: readonly number[];
}

/** A repair that was tried and did not cure. */
export interface RepairedEvidence {
  readonly kind: 'repaired';
  readonly cause: string;
}

/** A signal path with one faulty stage; probe `i` is between stage `i` and stage `i + 1`, from 0. */
export interface PathProblem {
  readonly kind: 'path';
  readonly stages: readonly PathStage[];
  /** One fewer than stages. */
  readonly probes: readonly PathProbe[];
  readonly evidence: readonly PathEvidence[];
}

export interface PathStage {
  readonly id: string;
  /** Relative to the other stages, at least 0; any scale. */
  readonly weight: number;
}

export interface PathProbe {
  readonly minutes: number;
}

/** What a probe showed: how well a good and a bad signal agree with it, in any scale; [1, 0] is good beyond doubt. */
export interface PathEvidence {
  readonly probe: number;
  readonly likelihood: readonly [good: number, bad: number];
}

/** A set-up mask has one bit for each set-up, and a mask is a 32-bit number. */
export const mostSetups = 30;
/** Beyond these counts a file is a mistake rather than a unit on a bench. */
export const mostCauses = 1000;
export const mostChecks = 1000;
export const mostStages = 1000;
export const mostOutcomes = 32;
export const defaultGiveUpMinutes = 240;

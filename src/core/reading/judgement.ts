import type { BandProbability } from './band-probabilities.ts';
import type { ReadingProblem } from '../quantity/reading-problem.ts';

/** What a reading says of its target. */
export interface Judgement {
  readonly kind: 'judgement';
  /** A band, a word of the target, `reversed`, or `too-close`. */
  readonly verdict: string;
  /** Every band from the lowest to the highest (before them `reversed` where the sign counts); they sum to one. */
  readonly probabilities: readonly BandProbability[];
  /** False where the numbers would mislead the engine: a reading that fools people says nothing yet. */
  readonly isEvidence: boolean;
  /** Best estimate in `unit`, loading corrected; +∞ for over-range, undefined where a word was given. */
  readonly value: number | undefined;
  /** Standard, in `unit`. */
  readonly uncertainty: number;
  readonly unit: string;
  /** What the reader should know, most urgent first. */
  readonly notes: readonly Note[];
  /** Where it is too close: what would settle it, the cheapest first. */
  readonly settle: readonly Remedy[];
}

export interface Note {
  readonly kind: NoteKind;
  readonly text: string;
}

export type NoteKind =
  | 'misread'
  | 'negative'
  | 'reversed'
  | 'over-range'
  | 'beyond-range'
  | 'loading'
  | 'probe'
  | 'other-instrument'
  | 'digits-only'
  | 'cannot-judge';

export interface Remedy {
  readonly kind: 'better-range' | 'other-instrument' | 'other-point' | 'correct-first';
  readonly text: string;
  /** Slugs of classes that would settle it. */
  readonly instruments: readonly string[];
}

export type JudgedText = Judgement | { readonly kind: 'problem'; readonly problem: ReadingProblem };

/** A verdict needs this much probability; the rest is too close to call. Guard band 1.645 u on each side. */
export const verdictProbability = 0.95;

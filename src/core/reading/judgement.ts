import type { Band, Target } from '../model/target.ts';
import type { ReadingProblem } from '../quantity/parse-reading.ts';
import { normalInterval } from './normal.ts';

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

export interface BandProbability {
  /** Name of a band, or `reversed`. */
  readonly band: string;
  /** 0 to 1; those of one reading sum to one. */
  readonly probability: number;
}

/** A target's scale: its bands, and whether the sign is left out of account. */
export type Scale = Pick<Target, 'bands' | 'compare' | 'sign'>;

/**
 * Probability that the true value lies in each band, from the lowest to the highest: the conformance probability of JCGM 106:2012,
 * clause 7, with the normal model Φ((to − y)/u) − Φ((from − y)/u). The outer ends of the outer bands are open.
 *
 * `value` and `standardUncertainty` are in the target's unit. An uncertainty of 0 gives hard limits, and one half each side of a value
 * that stands on one. +∞ (over-range) falls into the highest band. A target compared by magnitude has `reversed` before its bands: a
 * wrong sign by more than the lowest band's edge where that band is `none` or `in`, else any wrong sign.
 * Relative error below 1e-9 down to 1e-300.
 * @example
 * // An oil of 13.6 mm²/s, u = 1.8, limits 12.5 and 16.3 (JCGM 106:2012, clause 7.5): low 0.27, in 0.66, high 0.07
 */
export function computeBandProbabilities(
  value: number,
  standardUncertainty: number,
  scale: Scale,
): readonly BandProbability[] {
  const { names, edges } = layOut(scale);
  const signed = scale.compare === 'magnitude' && scale.sign === 'negative' ? -value : value;
  const distances = edges.map((edge) => (edge - signed) / standardUncertainty);
  return names.map((band, index) => {
    const probability =
      standardUncertainty > 0 && Number.isFinite(signed)
        ? normalInterval(distances[index - 1] ?? Number.NEGATIVE_INFINITY, distances[index] ?? Number.POSITIVE_INFINITY)
        : shareBeyondDoubt(signed, edges[index - 1], edges[index]);
    return { band, probability };
  });
}

/** Bands and the edges between them: `edges[i]` divides `names[i]` from `names[i + 1]`. */
function layOut({ bands, compare }: Scale): { readonly names: readonly string[]; readonly edges: readonly number[] } {
  const names = bands.map(({ name }) => name);
  const edges = bands.slice(0, -1).map((band, index) => edgeAbove(band, bands[index + 1]));
  const [lowest] = bands;
  if (compare === 'value' || lowest === undefined) return { names, edges };
  const reach = edges[0] ?? Number.POSITIVE_INFINITY;
  const holdsZero = lowest.name === 'none' || lowest.name === 'in';
  return { names: ['reversed', ...names], edges: [Math.min(holdsZero ? -reach : 0, reach), ...edges] };
}

function edgeAbove(band: Band, next: Band | undefined): number {
  return band.to ?? next?.from ?? Number.POSITIVE_INFINITY;
}

function shareBeyondDoubt(value: number, from = Number.NEGATIVE_INFINITY, to = Number.POSITIVE_INFINITY): number {
  if (value === Number.POSITIVE_INFINITY) return to === Number.POSITIVE_INFINITY ? 1 : 0;
  if (value === from || value === to) return 0.5;
  return value > from && value < to ? 1 : 0;
}

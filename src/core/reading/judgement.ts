import type { Band, Target } from '../model/target.ts';
import type { ReadingProblem } from '../quantity/parse-reading.ts';

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
  | 'cannot-judge'
  | 'implausible';

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

/**
 * P(Z > z) of the standard normal distribution, ½ erfc(z/√2). Relative error below 1e-12 down to the smallest normal double
 * (z = 37.5), 0 beyond 38.6.
 * @example upperTail(1.645) // 0.0499849…
 */
export function upperTail(z: number): number {
  return 0.5 * erfc(z * Math.SQRT1_2);
}

/**
 * P(from < Z < to) of the standard normal distribution; −∞ and +∞ allowed, 0 where `to` does not lie above `from`.
 * Keeps its relative digits in both tails and in windows far narrower than the distribution: tails are subtracted on the side where
 * they are small, and narrow windows are integrated by Gauss and Legendre's rule of five points (Abramowitz and Stegun, Handbook of
 * Mathematical Functions, 1964, table 25.4).
 * @example normalInterval(-1.96, 1.96) // 0.9500042…
 */
export function normalInterval(from: number, to: number): number {
  if (!(to > from)) return 0;
  if (from + to < 0) return normalInterval(-to, -from);
  const width = to - from;
  if (width * (1 + Math.max(Math.abs(from), Math.abs(to))) < narrow) return integrateDensity(from, to);
  if (from >= 0) return upperTail(from) - upperTail(to);
  return 1 - (upperTail(-from) + upperTail(to));
}

/** Width times steepness below which five points are exact to a double. */
const narrow = 0.5;
const inverseRootTwoPi = 0.3989422804014327;
const points = [
  [-0.906179845938664, 0.2369268850561891],
  [-0.5384693101056831, 0.4786286704993665],
  [0, 0.5688888888888889],
  [0.5384693101056831, 0.4786286704993665],
  [0.906179845938664, 0.2369268850561891],
] as const;

function integrateDensity(from: number, to: number): number {
  const half = (to - from) / 2;
  const middle = from + half;
  // exp(−(m + d)²/2) = exp(−m²/2) exp(−d (m + d/2)): the large exponent is taken once.
  const shape = points.reduce((sum, [place, weight]) => {
    const distance = place * half;
    return sum + weight * Math.exp(-distance * (middle + distance / 2));
  }, 0);
  return inverseRootTwoPi * Math.exp((-middle * middle) / 2) * half * shape;
}

/**
 * Complementary error function, erfc(x) = 2/√π ∫ from x to ∞ of exp(−t²) dt. Below 2 by the series of Abramowitz and Stegun, Handbook
 * of Mathematical Functions, 1964, formula 7.1.6, whose terms are all positive; above by the continued fraction 7.1.14, from its end.
 * A probability far out in a tail keeps its digits: relative error below 1e-12 down to the smallest normal double. NaN gives NaN.
 * @example erfc(1) // 0.15729920705028513
 */
export function erfc(x: number): number {
  if (x < 0) return 2 - erfc(-x);
  if (x > 28) return 0;
  if (x >= 2) return (inverseRootPi * expOfMinusSquare(x)) / continueFraction(x);
  let term = x;
  let sum = x;
  for (let n = 1; term > sum * 1e-17; n += 1) {
    term *= (2 * x * x) / (2 * n + 1);
    sum += term;
  }
  return 1 - 2 * inverseRootPi * expOfMinusSquare(x) * sum;
}

const inverseRootPi = 0.5641895835477563;

/** x + (1/2)/(x + 1/(x + (3/2)/(x + …))), sixty terms deep: exact to a double from 2 upward. */
function continueFraction(x: number): number {
  let value = x;
  for (let n = 60; n > 0; n -= 1) value = x + n / 2 / value;
  return value;
}

/** exp(−x²) with the rounding of x² kept out: x is cut to sixteenths, whose square is exact. */
function expOfMinusSquare(size: number): number {
  const cut = Math.trunc(size * 16) / 16;
  return Math.exp(-cut * cut) * Math.exp(-(size - cut) * (size + cut));
}

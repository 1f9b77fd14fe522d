import type { Band, Target } from '../model/target.ts';
import { normalInterval } from './normal.ts';

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

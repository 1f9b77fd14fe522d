import type { Target } from '../model/target.ts';

/** A target's scale drawn as zones of equal width: positions run from 0 (left end) to 1 (right end). */
export interface DrawnScale {
  readonly zones: readonly DrawnZone[];
  /** Limits between the zones. */
  readonly limits: readonly { readonly at: number; readonly value: number }[];
  /** Undefined for a word, which has no place on the scale. */
  readonly reading: DrawnReading | undefined;
}

export interface DrawnZone {
  readonly name: string;
  readonly from: number;
  readonly to: number;
}

/** Best estimate, and the ends of the interval that holds the true value with a probability of 0.95. */
export interface DrawnReading {
  readonly at: number;
  readonly from: number;
  readonly to: number;
}

/** Two-sided 95 % of the normal distribution (JCGM 100:2008, table G.1). */
const coverage = 1.96;

/**
 * Lays a target's bands out as zones of equal width, so that a narrow healthy window can be read beside a wide fault; within a zone the
 * position grows with the value, evenly between two limits and ever slower towards an open end. Not to scale across zones.
 * `value` and `uncertainty` (standard) are in the target's unit; the sign is left out for targets compared by magnitude, and a wrong sign
 * lies at the left end. +∞ lies at the right end.
 */
export function layOutScale(
  target: Pick<Target, 'bands' | 'compare' | 'sign'>,
  value: number | undefined,
  uncertainty: number,
): DrawnScale {
  const count = Math.max(1, target.bands.length);
  const zones = target.bands.map(({ name }, index) => ({ name, from: index / count, to: (index + 1) / count }));
  const edges = target.bands.slice(0, -1).map(({ to }, index) => to ?? target.bands[index + 1]?.from ?? 0);
  const limits = edges.map((edge, index) => ({ at: (index + 1) / count, value: edge }));
  if (value === undefined) return { zones, limits, reading: undefined };
  const size = target.compare === 'magnitude' && target.sign === 'negative' ? -value : value;
  const place = (one: number): number => placeOn(one, edges, count);
  return {
    zones,
    limits,
    reading: {
      at: place(size),
      from: place(size - coverage * uncertainty),
      to: place(size + coverage * uncertainty),
    },
  };
}

function placeOn(value: number, edges: readonly number[], count: number): number {
  if (edges.length === 0) return 0.5;
  const zone = edges.filter((edge) => value >= edge).length;
  const low = edges[zone - 1];
  const high = edges[zone];
  return (zone + shareOf(value, low, high, edges)) / count;
}

/** How far into its zone a value lies, 0 to 1. */
function shareOf(value: number, low: number | undefined, high: number | undefined, edges: readonly number[]): number {
  if (low !== undefined && high !== undefined) return (value - low) / (high - low);
  const scale = openScale(edges);
  if (low !== undefined) return Number.isFinite(value) ? (value - low) / (value - low + scale) : 1;
  const distance = (high ?? 0) - value;
  return Number.isFinite(distance) ? scale / (distance + scale) : 0;
}

/** The distance from the outermost limit at which an open zone is half used up. */
function openScale(edges: readonly number[]): number {
  const [first = 0] = edges;
  const last = edges.at(-1) ?? first;
  const width = last - first;
  return (width > 0 ? width : Math.abs(last)) / 2 || 1;
}

import { erfc } from './erfc.ts';

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
const points: readonly (readonly [place: number, weight: number])[] = [
  [-0.906179845938664, 0.2369268850561891],
  [-0.5384693101056831, 0.4786286704993665],
  [0, 0.5688888888888889],
  [0.5384693101056831, 0.4786286704993665],
  [0.906179845938664, 0.2369268850561891],
];

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

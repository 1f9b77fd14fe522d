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

/**
 * Complementary error function, erfc(x) = 2/√π ∫ from x to ∞ of exp(−t²) dt.
 *
 * Three rational approximations (Cody, Rational Chebyshev Approximations for the Error Function, Mathematics of Computation 23,
 * 1969, pages 631 to 637; coefficients as in his CALERF, SPECFUN, each rounded to a double). Relative error below 1e-14 for
 * −∞ < x ≤ 26.5, so that a probability far out in a tail keeps its digits; beyond 26.5 the result falls below the smallest normal
 * double, and to 0 beyond 27.3.
 * NaN gives NaN.
 * @example erfc(1) // 0.15729920705028513
 */
export function erfc(x: number): number {
  const size = Math.abs(x);
  if (size <= smallest) return 1 - x * ratio(size * size, erfTop, erfBottom);
  const tail = size <= largest ? middleTail(size) : farTail(size);
  return x < 0 ? 2 - tail : tail;
}

const smallest = 0.46875;
const largest = 4;
const inverseRootPi = 0.5641895835477563;

function middleTail(size: number): number {
  return expOfMinusSquare(size) * ratio(size, middleTop, middleBottom);
}

function farTail(size: number): number {
  if (size > 28) return 0;
  const square = 1 / (size * size);
  const correction = square * ratio(square, farTop, farBottom);
  return (expOfMinusSquare(size) * (inverseRootPi - correction)) / size;
}

/** exp(−x²) with the rounding of x² kept out: x is cut to sixteenths, whose square is exact. */
function expOfMinusSquare(size: number): number {
  const cut = Math.trunc(size * 16) / 16;
  return Math.exp(-cut * cut) * Math.exp(-(size - cut) * (size + cut));
}

/** Quotient of two polynomials by Horner's rule, coefficients from the highest power down. */
function ratio(x: number, top: readonly number[], bottom: readonly number[]): number {
  const evaluate = (coefficients: readonly number[]): number =>
    coefficients.reduce((sum, coefficient) => sum * x + coefficient, 0);
  return evaluate(top) / evaluate(bottom);
}

const erfTop = [0.18577770618460315, 3.1611237438705655, 113.86415415105016, 377.485237685302, 3209.3775891384694];
const erfBottom = [1, 23.601290952344122, 244.02463793444417, 1282.6165260773723, 2844.236833439171];
const middleTop = [
  2.1531153547440383e-8, 0.5641884969886701, 8.883149794388377, 66.11919063714163, 298.6351381974001, 881.952221241769,
  1712.0476126340707, 2051.0783778260716, 1230.3393547979972,
];
const middleBottom = [
  1, 15.744926110709835, 117.6939508913125, 537.1811018620099, 1621.3895745666903, 3290.7992357334597,
  4362.619090143247, 3439.3676741437216, 1230.3393548037495,
];
const farTop = [
  0.016315387137302097, 0.30532663496123236, 0.36034489994980445, 0.12578172611122926, 0.016083785148742275,
  0.0006587491615298378,
];
const farBottom = [
  1, 2.568520192289822, 1.8729528499234604, 0.5279051029514285, 0.06051834131244132, 0.0023352049762686918,
];

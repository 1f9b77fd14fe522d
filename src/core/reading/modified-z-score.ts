/** Beyond this a value is an outlier (Iglewicz and Hoaglin, How to Detect and Handle Outliers, 1993, chapter 3). */
export const outlierScore = 3.5;

/** Φ⁻¹(0.75): the median absolute deviation of a normal distribution is this share of its standard deviation. */
const normalMad = 0.6745;
/** √(π/2): standard deviation of a normal distribution over its mean absolute deviation. */
const normalMeanDeviation = 1.253314;

/**
 * Modified z-score of each value, 0.6745 (x − median) / MAD (Iglewicz and Hoaglin 1993), in the order given.
 * `leastSpread` is the smallest standard deviation to believe in, in the unit of the values: the instrument's doubt keeps equal
 * displays from making the next digit an outlier. Where more than half of the values are equal and `leastSpread` is 0, the mean
 * absolute deviation takes the place of the MAD, (x − median) / (1.253314 × mean deviation). All equal gives zeros.
 * @example computeModifiedZScores([10, 12, 12, 13, 12, 11, 14, 300]) // … 1.349, 194.256
 */
export function computeModifiedZScores(values: readonly number[], leastSpread: number = 0): readonly number[] {
  const middle = findMedian(values);
  const distances = values.map((value) => Math.abs(value - middle));
  const spread = Math.max(findMedian(distances) / normalMad, leastSpread);
  if (spread > 0) return values.map((value) => (value - middle) / spread);
  const mean = distances.reduce((sum, distance) => sum + distance, 0) / Math.max(1, distances.length);
  return values.map((value) => (mean === 0 ? 0 : (value - middle) / (normalMeanDeviation * mean)));
}

/** The middle value, or the mean of the two middle ones; NaN for none. */
export function findMedian(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  const half = Math.floor(sorted.length / 2);
  const upper = sorted[half] ?? Number.NaN;
  return sorted.length % 2 === 1 ? upper : ((sorted[half - 1] ?? Number.NaN) + upper) / 2;
}

import { computeModifiedZScores, findMedian, outlierScore } from '#core/reading/siblings.ts';
import { describe, expect, test } from 'vitest';

function outliersOf(values: readonly number[]): readonly number[] {
  return computeModifiedZScores(values).flatMap((score, index) => (Math.abs(score) > outlierScore ? [index] : []));
}

describe('the modified z-score of Iglewicz and Hoaglin, How to Detect and Handle Outliers, 1993', () => {
  // A published worked table, read: 10 12 12 13 12 11 14 300, median 12, MAD 1.
  test('has the scores of a published table', () => {
    const scores = computeModifiedZScores([10, 12, 12, 13, 12, 11, 14, 300]);
    const published = [-1.349, 0, 0, 0.6745, 0, -0.6745, 1.349, 194.256];
    for (const [index, score] of published.entries()) expect(scores[index]).toBeCloseTo(score, 4);
    expect(outliersOf([10, 12, 12, 13, 12, 11, 14, 300])).toEqual([7]);
  });

  // Tietjen and Moore 1972, eight mass spectrometer readings as printed in the NIST/SEMATECH e-Handbook, sections 1.3.5.17.1 and .2
  // (data from memory), where Grubbs' test and the generalized ESD test call 245.57 alone an outlier. Score by hand:
  // median 201.37, MAD (0.81 + 1.18)/2 = 0.995, 0.6745 × 44.20 / 0.995 = 29.96.
  test('calls 245.57 alone an outlier among eight readings of uranium, as Grubbs’ test does', () => {
    const readings = [199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57];
    expect(findMedian(readings)).toBeCloseTo(201.37, 10);
    expect(computeModifiedZScores(readings)[7]).toBeCloseTo(29.96, 2);
    expect(outliersOf(readings)).toEqual([7]);
  });

  // A calculator's published example, read: a value of 10, median 5, MAD 2 gives 0.6745 × 5 / 2 = 1.69.
  test('a value 5 above the median with a MAD of 2 scores 1.69', () => {
    const scores = computeModifiedZScores([10, 3, 5, 4, 7]);
    expect(scores[0]).toBeCloseTo(1.69, 2);
  });

  // The question of a published thread, read: seven equal values and one other, where the MAD is zero.
  test('finds the one that differs among equal values', () => {
    expect(outliersOf([10, 10, 10, 10, 10, 10, 10, 100])).toEqual([7]);
    expect(outliersOf([10, 10, 10, 10, 10])).toEqual([]);
  });
});

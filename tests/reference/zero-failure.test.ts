import { describe, expect, test } from 'vitest';
import { countProofHours, countProofStarts } from '#core/diagnosis/proof.ts';

describe('proof without the fault', () => {
  // The rule of three: Hanley and Lippman-Hand, JAMA 249, 1983, from memory; −ln 0.05 = 2.996 of any table of logarithms.
  test('a fault seen every 2 hours must stay away for 5.99 hours, three times as long', () => {
    expect(countProofHours(1)).toBeCloseTo(2.996, 3);
    expect(countProofHours(2)).toBeCloseTo(5.9915, 4);
  });

  // Zero-failure test of a binomial: the smallest n with (1 − p)^n ≤ 0.05, found here by multiplying.
  test.each([
    [1, 2, 5],
    [1, 5, 14],
    [1, 10, 29],
  ])('a fault seen in %i of %i starts needs %i clean ones', (seen, starts, clean) => {
    expect(countProofStarts(seen, starts)).toBe(clean);
    expect((1 - seen / starts) ** clean).toBeLessThanOrEqual(0.05);
    expect((1 - seen / starts) ** (clean - 1)).toBeGreaterThan(0.05);
  });

  test('a fault seen every time needs one clean start, and one never seen cannot be proved', () => {
    expect(countProofStarts(4, 4)).toBe(1);
    for (const [seen, starts] of [
      [0, 5],
      [6, 5],
      [Number.NaN, 5],
      [1, Number.POSITIVE_INFINITY],
      [-1, 5],
    ] as const) {
      expect(countProofStarts(seen, starts)).toBeUndefined();
    }
    for (const hours of [0, -1, Number.NaN, Number.POSITIVE_INFINITY]) expect(countProofHours(hours)).toBeUndefined();
  });
});

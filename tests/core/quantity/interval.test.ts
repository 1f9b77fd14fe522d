import {
  addIntervals,
  between,
  contains,
  divideIntervals,
  type Interval,
  multiplyIntervals,
  subtractIntervals,
  withTolerance,
} from '#core/quantity/interval.ts';
import fc from 'fast-check';
import { expect, test } from 'vitest';

// Worst case of a divider worked by hand: 12 V, 2.7 kΩ over 1.8 kΩ, all ±5 %. V = Vin / (1 + R1/R2) at the extremes:
// 11.4 / (1 + 2.835/1.71) = 4.2891 V and 12.6 / (1 + 2.565/1.89) = 5.3455 V.
test('a divider of 5 % parts gives the extremes of its worst case', () => {
  const quotient = divideIntervals(withTolerance(2700, 5), withTolerance(1800, 5)) ?? between(Number.NaN, Number.NaN);
  const voltage = divideIntervals(withTolerance(12, 5), addIntervals(between(1, 1), quotient));
  expect(voltage?.low).toBeCloseTo(4.2891, 4);
  expect(voltage?.high).toBeCloseTo(5.3455, 4);
});

test('a divisor that may be zero gives nothing', () => {
  expect(divideIntervals(between(1, 2), between(-1, 1))).toBeUndefined();
  expect(divideIntervals(between(1, 2), between(0, 1))).toBeUndefined();
});

const anyInterval: fc.Arbitrary<readonly [Interval, number]> = fc
  .tuple(
    fc.integer({ min: -1000, max: 1000 }),
    fc.integer({ min: -1000, max: 1000 }),
    fc.double({ min: 0, max: 1, noNaN: true }),
  )
  .map(([one, other, share]) => [between(one, other), Math.min(one, other) + share * Math.abs(one - other)]);

test('the interval of a result holds the result of every pair of values', () => {
  const widen = ({ low, high }: Interval): Interval => ({ low: low - 1e-6, high: high + 1e-6 });
  fc.assert(
    fc.property(anyInterval, anyInterval, ([a, x], [b, y]) => {
      expect(contains(widen(addIntervals(a, b)), x + y)).toBe(true);
      expect(contains(widen(subtractIntervals(a, b)), x - y)).toBe(true);
      expect(contains(widen(multiplyIntervals(a, b)), x * y)).toBe(true);
      const quotient = divideIntervals(a, b);
      if (quotient !== undefined) expect(contains(widen(quotient), x / y)).toBe(true);
    }),
    { numRuns: 1000 },
  );
});

import { computeFrom, type Formula, formulas } from '#core/reading/formula.ts';
import { describe, expect, test } from 'vitest';

/** A formula that no target uses, to hold the way of combining against examples that others have published. */
function combine(compute: Formula['compute'], figures: readonly (readonly [value: number, uncertainty: number])[]) {
  const formula = { ...formulas.difference, compute };
  return computeFrom(
    formula,
    figures.map(([value, uncertainty]) => ({ value, uncertainty, shared: 0 })),
    'V',
  );
}

// EURACHEM/CITAC Guide CG 4, Quantifying Uncertainty in Analytical Measurement, third edition 2012, section 8.2.6, from memory.
describe('the two examples of the guide for analysts', () => {
  test('example 1, sums and differences: 5.02 − 6.45 + 9.04 with 0.13, 0.05 and 0.22 is 7.61 ± 0.26', () => {
    const { value, uncertainty } = combine(
      ([p = 0, q = 0, r = 0]) => p - q + r,
      [
        [5.02, 0.13],
        [6.45, 0.05],
        [9.04, 0.22],
      ],
    );
    expect(value).toBeCloseTo(7.61, 10);
    expect(uncertainty).toBeCloseTo(0.26, 2);
  });

  test('example 2, products and quotients: 2.46 × 4.32 ÷ (6.38 × 2.99) is 0.56 ± 0.024', () => {
    const { value, uncertainty } = combine(
      ([o = 0, p = 0, q = 0, r = 0]) => (o * p) / (q * r),
      [
        [2.46, 0.02],
        [4.32, 0.13],
        [6.38, 0.11],
        [2.99, 0.07],
      ],
    );
    expect(value).toBeCloseTo(0.56, 2);
    expect(uncertainty).toBeCloseTo(0.024, 3);
  });
});

// JCGM 100:2008 (GUM), annex H.2, table H.2, from memory: V = 4.9990 V, u 0.0032 V; I = 19.661 mA, u 0.0095 mA; their correlation is
// −0.36, and Z = V/I = 254.26 Ω with u = 0.24 Ω. Without the correlation the same table gives, by clause 5.1.6, 254.26 × √(0.000640² +
// 0.000483²) = 0.204 Ω, worked by hand.
test('the impedance of the guide’s annex: volts over amperes', () => {
  const { value, uncertainty } = computeFrom(
    formulas.ratio,
    [
      { value: 4.999, uncertainty: 0.0032, shared: 0 },
      { value: 0.019661, uncertainty: 0.0000095, shared: 0 },
    ],
    'Ω',
  );
  expect(value).toBeCloseTo(254.26, 2);
  expect(uncertainty).toBeCloseTo(0.204, 3);
});

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Band } from '#core/model/target.ts';
import { type BandProbability, computeBandProbabilities } from '#core/reading/judgement.ts';
import { makeTarget } from '../../support/make-target.ts';

const rail = makeTarget();
const negativeRail = makeTarget({ compare: 'magnitude', sign: 'negative' });

/** Bands between rising edges, named by their place. */
const anyBands: fc.Arbitrary<readonly Band[]> = fc
  .uniqueArray(fc.integer({ min: -500, max: 500 }), { minLength: 1, maxLength: 5 })
  .map((edges) => {
    const rising = edges.toSorted((a, b) => a - b).map((edge) => edge / 10);
    return [...rising, undefined].map((to, index) => ({ name: `band-${index}`, from: rising[index - 1], to }));
  });
const anyValue = fc.double({ min: -80, max: 80, noNaN: true });
const anyUncertainty = fc.double({ min: 1e-6, max: 50, noNaN: true });

function sumOf(probabilities: readonly BandProbability[]): number {
  return probabilities.reduce((sum, { probability }) => sum + probability, 0);
}

function of(band: string, probabilities: readonly BandProbability[]): number {
  return probabilities.find((found) => found.band === band)?.probability ?? Number.NaN;
}

describe('probabilities of bands', () => {
  test('sum to one, each between nought and one', () => {
    fc.assert(
      fc.property(
        anyValue,
        anyUncertainty,
        anyBands,
        fc.constantFrom('value', 'magnitude'),
        (value, u, bands, compare) => {
          const scale = { bands, compare, sign: 'positive' } as const;
          const probabilities = computeBandProbabilities(value, u, scale);
          expect(Math.abs(sumOf(probabilities) - 1)).toBeLessThan(1e-12);
          expect(probabilities.every(({ probability }) => probability >= 0 && probability <= 1)).toBe(true);
        },
      ),
      { numRuns: 2000 },
    );
  });

  test('a higher reading never makes the lowest band likelier, nor the highest less likely', () => {
    fc.assert(
      fc.property(
        anyValue,
        fc.double({ min: 0, max: 20, noNaN: true }),
        anyUncertainty,
        anyBands,
        (value, step, u, bands) => {
          const scale = { bands, compare: 'value', sign: 'positive' } as const;
          const lower = computeBandProbabilities(value, u, scale);
          const higher = computeBandProbabilities(value + step, u, scale);
          expect(higher[0]?.probability).toBeLessThanOrEqual((lower[0]?.probability ?? 0) * (1 + 1e-12));
          expect(lower.at(-1)?.probability).toBeLessThanOrEqual((higher.at(-1)?.probability ?? 0) * (1 + 1e-12));
        },
      ),
      { numRuns: 2000 },
    );
  });

  test('the mirror image of a reading on the mirror image of its scale has the mirror image of its probabilities', () => {
    fc.assert(
      fc.property(anyValue, anyUncertainty, anyBands, (value, u, bands) => {
        const mirrored = bands
          .map(({ name, from, to }) => ({
            name,
            from: to === undefined ? undefined : -to,
            to: from === undefined ? undefined : -from,
          }))
          .toReversed();
        const straight = computeBandProbabilities(value, u, { bands, compare: 'value', sign: 'positive' });
        const reflected = computeBandProbabilities(-value, u, { bands: mirrored, compare: 'value', sign: 'positive' });
        expect(reflected.toReversed()).toEqual(straight);
      }),
      { numRuns: 2000 },
    );
  });

  test('moving reading and scale together, or stretching all, changes nothing', () => {
    fc.assert(
      fc.property(anyValue, anyUncertainty, anyBands, fc.constantFrom(0.25, 2, 8), (value, u, bands, factor) => {
        const stretched = bands.map(({ name, from, to }) => ({
          name,
          from: from === undefined ? undefined : from * factor,
          to: to === undefined ? undefined : to * factor,
        }));
        const scale = { compare: 'value', sign: 'positive' } as const;
        expect(computeBandProbabilities(value * factor, u * factor, { ...scale, bands: stretched })).toEqual(
          computeBandProbabilities(value, u, { ...scale, bands }),
        );
      }),
    );
  });

  test('without doubt the limits are hard, and a value on a limit is half on either side', () => {
    expect(of('low', computeBandProbabilities(4.7499, 0, rail))).toBe(1);
    expect(of('in', computeBandProbabilities(4.7501, 0, rail))).toBe(1);
    expect(of('high', computeBandProbabilities(5.2501, 0, rail))).toBe(1);
    expect(of('none', computeBandProbabilities(0.3, 0, rail))).toBe(1);
    const onLimit = computeBandProbabilities(4.75, 0, rail);
    expect([of('low', onLimit), of('in', onLimit)]).toEqual([0.5, 0.5]);
  });

  test('a vanishing doubt comes to the same as none', () => {
    fc.assert(
      fc.property(anyValue, anyBands, (value, bands) => {
        const edges = bands.flatMap(({ to }) => (to === undefined ? [] : [to]));
        fc.pre(edges.every((edge) => Math.abs(edge - value) > 1e-6));
        const scale = { bands, compare: 'value', sign: 'positive' } as const;
        expect(computeBandProbabilities(value, 1e-9, scale)).toEqual(computeBandProbabilities(value, 0, scale));
      }),
    );
  });

  test('a target with one band is certain of it', () => {
    const bands = [{ name: 'in', from: undefined, to: undefined }];
    expect(computeBandProbabilities(3, 1, { bands, compare: 'value', sign: 'positive' })).toEqual([
      { band: 'in', probability: 1 },
    ]);
  });
});

// JCGM 106 form by hand: Φ((4.75 − y)/u) and so on, Φ from a printed normal table.
test('a 5 V rail at 4.72 V with u 0.0252 V is in with 0.117', () => {
  expect(of('in', computeBandProbabilities(4.72, 0.0252, rail))).toBeCloseTo(0.117, 3);
  expect(of('in', computeBandProbabilities(4.78, 0.0253, rail))).toBeCloseTo(0.882, 3);
  expect(of('in', computeBandProbabilities(4.8, 0.0254, rail))).toBeCloseTo(0.975, 3);
  expect(of('in', computeBandProbabilities(5.26, 0.0267, rail))).toBeCloseTo(0.354, 3);
});

describe('a rail compared by magnitude', () => {
  test('is judged by its size when the sign is right', () => {
    expect(of('in', computeBandProbabilities(-5, 0.01, negativeRail))).toBeCloseTo(1, 12);
    expect(of('low', computeBandProbabilities(-4, 0.01, negativeRail))).toBeCloseTo(1, 12);
    expect(of('high', computeBandProbabilities(-6, 0.01, negativeRail))).toBeCloseTo(1, 12);
  });

  test('is reversed when the sign is wrong, and absent near nought whatever the sign', () => {
    expect(of('reversed', computeBandProbabilities(5, 0.01, negativeRail))).toBeCloseTo(1, 12);
    expect(of('none', computeBandProbabilities(0.2, 0.01, negativeRail))).toBeCloseTo(1, 12);
    expect(of('none', computeBandProbabilities(-0.2, 0.01, negativeRail))).toBeCloseTo(1, 12);
  });

  test('a negative rail reads as its positive twin turned over', () => {
    const positive = makeTarget({ compare: 'magnitude', sign: 'positive' });
    fc.assert(
      fc.property(anyValue, anyUncertainty, (value, u) => {
        expect(computeBandProbabilities(-value, u, negativeRail)).toEqual(computeBandProbabilities(value, u, positive));
      }),
    );
  });
});

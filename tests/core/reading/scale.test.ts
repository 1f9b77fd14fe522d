import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { layOutScale } from '#core/reading/scale.ts';
import { makeTarget } from '../../support/make-target.ts';

const rail = makeTarget({
  bands: [
    { name: 'none', from: undefined, to: 0.5 },
    { name: 'low', from: 0.5, to: 4.75 },
    { name: 'in', from: 4.75, to: 5.25 },
    { name: 'high', from: 5.25, to: undefined },
  ],
});

describe('a scale with zones of equal width', () => {
  it('puts the limits at the quarters, the middle of the window in the middle of its zone', () => {
    const { zones, limits, reading } = layOutScale(rail, 5, 0);

    expect(zones.map(({ name }) => name)).toEqual(['none', 'low', 'in', 'high']);
    expect(limits).toEqual([
      { at: 0.25, value: 0.5 },
      { at: 0.5, value: 4.75 },
      { at: 0.75, value: 5.25 },
    ]);
    expect(reading?.at).toBeCloseTo(0.625, 12);
  });

  it('keeps the order of values, and all of them on the scale, over-range and nonsense too', () => {
    const value = fc.double({ min: -1e15, max: 1e15, noNaN: true });
    fc.assert(
      fc.property(value, value, fc.double({ min: 0, max: 1e6, noNaN: true }), (one, other, uncertainty) => {
        const [low, high] = [Math.min(one, other), Math.max(one, other)];
        const [a, b] = [layOutScale(rail, low, uncertainty).reading, layOutScale(rail, high, uncertainty).reading];
        expect(a?.at).toBeLessThanOrEqual(b?.at ?? -1);
        for (const at of [a?.from, a?.at, a?.to, b?.from, b?.at, b?.to]) {
          expect(at).toBeGreaterThanOrEqual(0);
          expect(at).toBeLessThanOrEqual(1);
        }
      }),
    );
    expect(layOutScale(rail, Number.POSITIVE_INFINITY, 0).reading?.at).toBe(1);
  });

  it('spans 1.96 standard uncertainties each side', () => {
    const { reading } = layOutScale(rail, 5, 0.1);
    const { reading: end } = layOutScale(rail, 5.196, 0);

    expect(reading?.to).toBeCloseTo(end?.at ?? 0, 12);
  });

  it('turns negative rails so that their size grows to the right', () => {
    const minus = { ...rail, compare: 'magnitude', sign: 'negative' } as const;

    expect(layOutScale(minus, -5, 0).reading?.at).toBeCloseTo(0.625, 12);
    expect(layOutScale(minus, 5, 0).reading?.at).toBeLessThan(0.25);
  });
});

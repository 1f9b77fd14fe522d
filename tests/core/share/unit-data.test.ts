import { describe, expect, it } from 'vitest';
import type { Unit } from '#core/model/library.ts';
import { compileContent } from '#compiler/compile-content.ts';
import { makeUnitData } from '#core/share/unit-data.ts';
import { makeContent } from '../../compiler/make-content.ts';

const { library } = compileContent(makeContent());

function unitWith(change: Partial<Unit>): Unit {
  return {
    slug: 'demo',
    title: 'Demo',
    summary: 'Made for a test.',
    mains: 'outside',
    hasTube: false,
    storesCharge: false,
    variants: [],
    points: {},
    targets: {},
    differs: {},
    prose: [],
    ...change,
  };
}

const none = { low: undefined, nominal: undefined, high: undefined };

describe('makeUnitData', () => {
  it('prints the board’s own numbers for the targets it changes, and no others', () => {
    const unit = unitWith({ targets: { 'rail-5v': { low: 4.9, nominal: undefined, high: undefined } } });

    expect(makeUnitData(unit, library).targets).toEqual({
      'rail-5v': {
        limits: { low: 4.9, nominal: undefined, high: undefined },
        nominal: '5\u00a0V',
        healthy: '4.9 to 5.25\u00a0V',
        bands: {
          none: 'below 0.5\u00a0V',
          low: '0.5 to 4.9\u00a0V',
          in: '4.9 to 5.25\u00a0V',
          high: 'above 5.25\u00a0V',
        },
      },
    });
    expect(makeUnitData(unitWith({}), library).targets).toEqual({});
  });

  it('takes a variant of the target where the board names one, and its own limits before that', () => {
    const { library: varied } = compileContent(
      makeContent([
        {
          file: 'content/targets/rail-5v.mdx',
          from: 'status: practice',
          to: 'status: practice\nvariants: { mains-60: { high: 5.5 } }',
        },
      ]),
    );
    const healthyOn = (unit: Unit): string | undefined => makeUnitData(unit, varied).targets['rail-5v']?.healthy;

    expect(healthyOn(unitWith({ variants: ['mains-60'] }))).toBe('4.75 to 5.5\u00a0V');
    expect(healthyOn(unitWith({ variants: ['mains-60'], targets: { 'rail-5v': { ...none, low: 4.9 } } }))).toBe(
      '4.9 to 5.25\u00a0V',
    );
    expect(healthyOn(unitWith({ variants: ['mains-50'] }))).toBeUndefined();
    expect(healthyOn(unitWith({ variants: ['constructor'] }))).toBeUndefined();
  });
});

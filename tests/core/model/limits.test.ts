import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compileContent } from '#compiler/compile-content.ts';
import type { Unit } from '#core/model/library.ts';
import { applyLimits, makeMainsTargets, makeUnitData } from '#core/model/limits.ts';
import { makeContent } from '../../compiler/make-content.ts';
import { makeTarget } from '../../support/make-target.ts';

const none = { low: undefined, nominal: undefined, high: undefined };

describe('applyLimits', () => {
  it('moves the edges that are named, and both bands that share them', () => {
    expect(applyLimits(makeTarget(), { low: 4.9, nominal: 5.05, high: undefined })).toMatchObject({
      nominal: 5.05,
      bands: [
        { name: 'none', from: undefined, to: 0.5 },
        { name: 'low', from: 0.5, to: 4.9 },
        { name: 'in', from: 4.9, to: 5.25 },
        { name: 'high', from: 5.25, to: undefined },
      ],
    });
  });

  it('changes nothing where nothing is named', () => {
    expect(applyLimits(makeTarget(), none)).toEqual(makeTarget());
  });

  it('keeps names and order of the bands and lets neighbours share their edge', () => {
    const limit = fc.option(fc.double({ min: 0.6, max: 9, noNaN: true }), { nil: undefined });
    fc.assert(
      fc.property(fc.record({ low: limit, nominal: limit, high: limit }), (limits) => {
        const { bands } = applyLimits(makeTarget(), limits);

        expect(bands.map(({ name }) => name)).toEqual(['none', 'low', 'in', 'high']);
        expect(bands.slice(1).map(({ from }) => from)).toEqual(bands.slice(0, -1).map(({ to }) => to));
      }),
    );
  });
});

const { library } = compileContent(makeContent());

function unitWith(change: Partial<Unit>): Unit {
  return {
    slug: 'demo',
    title: 'Demo',
    summary: 'Made for a test.',
    mains: 'outside',
    isInvented: false,
    supplyKind: 'transformer',
    hasTube: false,
    storesCharge: false,
    supplyVolts: undefined,
    variants: [],
    points: {},
    chips: {},
    placement: undefined,
    targets: {},
    circuits: {},
    differs: {},
    prose: [],
    ...change,
  };
}

describe('makeUnitData', () => {
  it('tells what makes the low voltages, but not where a picture tube shares the case', () => {
    expect(makeUnitData(unitWith({}), library).supplyKind).toBe('transformer');
    expect(makeUnitData(unitWith({ hasTube: true }), library).supplyKind).toBe('unknown');
  });

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
          'none low': 'below 4.9\u00a0V',
          'low in': '0.5 to 5.25\u00a0V',
          'in high': 'above 4.9\u00a0V',
          'none low in': 'below 5.25\u00a0V',
          'low in high': 'above 0.5\u00a0V',
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

// A full-wave rectifier doubles the frequency of the mains: 100 and 120 Hz.
const limits = { low: 114, nominal: 120, high: 126 };
const ripple = {
  ...makeTarget({ unit: 'Hz', nominal: 100 }),
  slug: 'ripple',
  variants: { 'mains-60': limits },
};

describe('targets on this bench’s mains', () => {
  it('are those with limits for its frequency, and say why', () => {
    expect(makeMainsTargets([ripple], 60)['ripple']).toMatchObject({
      limits,
      nominal: '120\u00a0Hz',
      healthy: '114 to 126\u00a0Hz, for 60\u00a0Hz mains',
    });
    expect(applyLimits(ripple, limits).bands.find(({ name }) => name === 'in')).toMatchObject({ from: 114, to: 126 });
  });

  it('are none where the target has no such limits, or the bench does not say', () => {
    expect(makeMainsTargets([ripple], 50)).toEqual({});
    expect(makeMainsTargets([ripple], undefined)).toEqual({});
  });
});

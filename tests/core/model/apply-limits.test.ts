import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { applyLimits } from '#core/model/apply-limits.ts';
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

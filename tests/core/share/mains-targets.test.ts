import { describe, expect, it } from 'vitest';
import { applyLimits } from '#core/model/apply-limits.ts';
import { makeMainsTargets } from '#core/share/mains-targets.ts';
import { makeTarget } from '../../support/make-target.ts';

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

import { describe, expect, it } from 'vitest';
import { isProved, planProof } from '#core/bench-log/plan-proof.ts';

// The rule of three: after n trials without a showing, 3/n bounds the rate at 95 % (Hanley and Lippman-Hand, JAMA 1983, from memory).
// Starts: the smallest n with (1 − p)^n at most 0.05, worked out beside each.
describe('the proof that a fault calls for', () => {
  it('is once in order where it was always there', () => {
    expect(planProof({ how: 'always' })).toMatchObject({ unit: 'time', needed: 1 });
  });

  it('is three times the mean hours between showings, to a quarter of a per cent', () => {
    const planned = planProof({ how: 'hours', meanHours: 2 });
    expect(planned?.unit).toBe('hours');
    expect(Math.abs((planned?.needed ?? 0) / 6 - 1)).toBeLessThan(0.0025);
    expect(planned?.text).toContain('Run 6 h');
  });

  it.each([
    [1, 2, 5], // 0.5^4 = 0.0625, 0.5^5 = 0.03125
    [1, 5, 14], // 0.8^13 = 0.0550, 0.8^14 = 0.0440
    [1, 10, 29], // 0.9^28 = 0.0523, 0.9^29 = 0.0471
    [3, 3, 1],
  ])('for %i of %i starts is %i clean starts', (seen, starts, needed) => {
    expect(planProof({ how: 'starts', seen, starts })).toMatchObject({ unit: 'starts', needed });
  });

  it('is not to be had where it showed more often than it was started', () => {
    expect(planProof({ how: 'starts', seen: 6, starts: 5 })).toBeUndefined();
  });
});

describe('a run', () => {
  it('proves the repair when it is long enough and clean', () => {
    expect(isProved({ how: 'starts', seen: 1, starts: 5 }, 14, true)).toBe(true);
    expect(isProved({ how: 'starts', seen: 1, starts: 5 }, 13, true)).toBe(false);
    expect(isProved({ how: 'starts', seen: 1, starts: 5 }, 14, false)).toBe(false);
    expect(isProved({ how: 'hours', meanHours: 2 }, 6, true)).toBe(true);
  });
});

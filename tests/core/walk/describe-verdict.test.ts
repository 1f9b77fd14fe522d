import { describe, expect, it } from 'vitest';
import { makeMainsTargets } from '#core/share/mains-targets.ts';
import { describeVerdict } from '#core/walk/describe-verdict.ts';
import { nameInstrument } from '#core/walk/name-instrument.ts';
import { answerTo as answer, psuBench as bench } from '../../support/psu-bench.ts';

// 5 V rail of 4.75 to 5.25 V; ±(0.5 % + 2 counts) at 4.74 V is u = 0.025 V (worked in tests/reference/meter-accuracy.test.ts).
describe('the verdict on a reading', () => {
  it.each([
    ['4.10V', 'Low.'],
    ['5.00V', 'In range.'],
    ['4.74V', 'Too close to call: low or in range.'],
    ['4.10A', 'Does not fit this target.'],
  ])('%s: %s', (value, verdict) => {
    expect(describeVerdict(answer('rail-bare', value, { instrument: 'multimeter-2000' }), bench)).toBe(verdict);
  });

  it('says where a person decided over a reading that says something else, and only there', () => {
    expect(describeVerdict(answer('rail-bare', 'low', { readings: ['5.00V'] }), bench)).toBe(
      'Decided by hand; the reading alone: in range.',
    );
    expect(describeVerdict(answer('rail-bare', 'low', { readings: ['4.10V'] }), bench)).toBeUndefined();
  });

  it('is none for a word, and for a check without limits', () => {
    expect(describeVerdict(answer('rail-bare', 'low'), bench)).toBeUndefined();
    expect(describeVerdict(answer('supply-kind', '4.1V'), bench)).toBeUndefined();
  });

  // A full-wave rectifier doubles the frequency of the mains.
  it('follows the mains of the bench: 120 Hz of ripple is high at 50 Hz and in range at 60 Hz', () => {
    const mains = makeMainsTargets(bench.references.targets.values(), 60);
    const limits = Object.fromEntries(Object.entries(mains).map(([slug, target]) => [slug, target.limits]));
    const ripple = answer('ripple-rate', '120Hz', { instrument: 'frequency-counter' });
    expect(describeVerdict(ripple, bench)).toBe('High.');
    expect(describeVerdict(ripple, { ...bench, limits })).toBe('In range.');
  });
});

describe('the instrument of an answer', () => {
  it('is the one named, else the one a reading is judged with, and none for a word', () => {
    expect(nameInstrument(answer('rail-bare', '4.1V', { instrument: 'own-0.5-2' }), bench)).toBe('own-0.5-2');
    expect(nameInstrument(answer('rail-bare', '4.1V'), bench)).toBe('multimeter-6000');
    expect(nameInstrument(answer('rail-bare', 'low', { readings: ['4.1V'] }), bench)).toBe('multimeter-6000');
    expect(nameInstrument(answer('rail-bare', 'low'), bench)).toBeUndefined();
    expect(nameInstrument(answer('rail-bare', '4.1A'), bench)).toBeUndefined();
  });
});

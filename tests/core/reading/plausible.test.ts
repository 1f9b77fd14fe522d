import { parseReading } from '#core/quantity/parse-reading.ts';
import { findImplausible } from '#core/reading/plausible.ts';
import type { Target } from '#core/model/target.ts';
import { describe, expect, test } from 'vitest';
import { bandsOf, makeTarget } from '../../support/make-target.ts';

const rail = makeTarget();
const ohms = (low: number | undefined, high: number): Target =>
  makeTarget({ quantity: 'resistance', unit: 'Ω', nominal: undefined, bands: bandsOf(low, high) });
/** Limits of content/targets/speaker-dc.mdx, and the ohms of an 8 Ω loudspeaker. */
const speakerDc = makeTarget({
  nominal: 0,
  bands: bandsOf(-0.5, 0.5),
});
const speakerOhms = ohms(6, 7.5);
const clock = makeTarget({
  quantity: 'frequency',
  unit: 'MHz',
  nominal: 4,
  bands: bandsOf(3.9, 4.1),
});

function ask(text: string, target: Target, supplyVolts?: number): string | undefined {
  const parsed = parseReading(text, target);
  if (parsed.kind === 'problem') throw new Error(parsed.problem.message);
  return findImplausible([parsed.reading], target, supplyVolts);
}

describe('a reading that can hardly be is asked about', () => {
  test.each([
    ['47 V', speakerDc, '47\u00a0V would be 47\u00a0mV with another prefix.'],
    ['70', speakerOhms, '70\u00a0Ω would be 7.0\u00a0Ω with a decimal point.'],
    ['47', ohms(undefined, 0.5), '47\u00a0Ω would be 0.47\u00a0Ω with a decimal point.'],
    ['47', ohms(3, 10), '47\u00a0Ω would be 4.7\u00a0Ω with a decimal point.'],
    ['4.7', ohms(undefined, 0.01), '4.7\u00a0Ω would be 4.7\u00a0mΩ with another prefix.'],
    ['5 mV', rail, '5\u00a0mV would be 5\u00a0V with another prefix.'],
    ['4 kHz', clock, '4\u00a0kHz would be 4\u00a0MHz with another prefix.'],
    ['3.3 kV', rail, '3.3\u00a0kV is a thousand times what this point can be expected to show.'],
  ])('%s', (text, target, expected) => {
    expect(ask(text, target)).toBe(expected);
  });

  test('more than any supply of the unit', () => {
    expect(ask('31 V', speakerDc, 24)).toContain('more than any supply of this unit');
    expect(ask('-31.2 V', makeTarget({ bands: [{ name: 'in', from: 7, to: undefined }] }), 24)).toContain('24 V');
    expect(ask('11 V', rail, 12)).toBeUndefined();
  });
});

describe('what faults do is not asked about', () => {
  test.each([
    ['0.02', rail],
    ['0', rail],
    ['0.5', rail],
    ['9.1', rail],
    ['12.1', rail],
    ['-5.00', rail],
    ['12.4', speakerDc],
    ['3', ohms(undefined, 0.5)],
    ['0.1', speakerOhms],
    ['9.6', speakerOhms],
    ['OL', speakerOhms],
    ['3.5', clock],
    ['8', clock],
    [
      '8.1',
      makeTarget({
        nominal: 10,
        bands: [
          { name: 'low', from: undefined, to: 9 },
          { name: 'in', from: 9, to: undefined },
        ],
      }),
    ],
  ])('%s', (text, target) => {
    expect(ask(text, target)).toBeUndefined();
  });
});

import { convertUnit } from '#core/quantity/reading.ts';
import { parseReading } from '#core/quantity/parse-reading.ts';
import { assessDoubt, correctLoading, type Doubt, pullOfProbe, typicalCrystal } from '#core/reading/doubt.ts';
import { makeOwnInstrument, parseAccuracy } from '#core/reading/instrument.ts';
import { describe, expect, test } from 'vitest';
import { makeTarget } from '../support/make-target.ts';
import { makeInstrument } from '../support/reading/make-instrument.ts';

function assess(text: string, accuracy: string): Doubt {
  const target = makeTarget();
  const parsed = parseReading(text, target);
  const own = parseAccuracy(accuracy);
  if (parsed.kind === 'problem' || own === undefined) throw new Error(`${text} or ${accuracy} was not read.`);
  const doubt = assessDoubt(parsed.reading, target, makeOwnInstrument(own, { ...target, instruments: ['multimeter'] }));
  if (doubt === undefined) throw new Error('The meter measures volts.');
  return doubt;
}

describe('±(percent of reading + counts), published worked examples', () => {
  // A calibration course's pages on meter accuracy, read.
  test.each([
    ['32.00 V', '±(2.5 % + 3)', 0.83],
    ['100.0 V', '±(0.8 % + 2)', 1.0],
  ])('%s at %s is off by at most %d V', (text, accuracy, expected) => {
    expect(assess(text, accuracy).accuracy).toBeCloseTo(expected, 10);
  });

  test('1.755 V at ±(0.5 % + 1) is off by at most 0.0098 V', () => {
    expect(assess('1.755 V', '±(0.5 % + 1)').accuracy).toBeCloseTo(0.0098, 4);
  });

  // Meter makers' own explanations, read: 120.0 V ac on a 6000-count meter; 100.0 V at two accuracies; 2 V on a 2 V range.
  test.each([
    ['120.0 V', '±(1% + 3 counts)', 1.5],
    ['100.0 V', '±(1 % + 2)', 1.2],
    ['100.0 V', '±(2%+2)', 2.2],
    ['2.000 V', '±(0.5%+3)', 0.013],
  ])('%s at %s is off by at most %d V, as makers work it', (text, accuracy, expected) => {
    expect(assess(text, accuracy).accuracy).toBeCloseTo(expected, 10);
  });

  // A maker's explanation, read: 2.000 V on a 5 V range of ±(0.08 % rdg + 2 dgt), 0.0016 V and 0.002 V.
  test('2.000 V at ±(0.08 % rdg + 2 dgt) lies between 1.9964 and 2.0036 V', () => {
    const { accuracy } = assess('2.000 V', '±(0.08% rdg + 2 dgt)');
    expect(2 - accuracy).toBeCloseTo(1.9964, 10);
    expect(2 + accuracy).toBeCloseTo(2.0036, 10);
  });

  // One published page works this twice: ±0.1304 V, and ±0.1007 V with the counts added before the percentage is taken.
  test('5.02 V at ±(2 % + 3) is 0.1304 V and not 0.1007 V', () => {
    expect(assess('5.02 V', '±(2 % + 3)').accuracy).toBeCloseTo(0.1304, 10);
  });

  test('a range with a count of its own does not follow the digits typed', () => {
    const parsed = parseReading('4.72', makeTarget());
    if (parsed.kind === 'problem') throw new Error(parsed.problem.message);
    const meter = makeInstrument({ percent: 0.5, counts: 2, resolution: 0.01, to: 20 });
    const doubt = assessDoubt(parsed.reading, makeTarget(), meter);
    // By hand: 0.0236 + 0.02 = 0.0436 V; GUM (JCGM 100:2008) clause 4.3.7, rectangular: √(0.0436² + 0.005²)/√3 = 0.02534 V.
    expect(doubt?.accuracy).toBeCloseTo(0.0436, 10);
    expect(doubt?.halfDigit).toBe(0.005);
    expect(doubt?.standardUncertainty).toBeCloseTo(0.02534, 5);
  });

  test('the range is the lowest that holds the figure, whatever unit it is written in', () => {
    const ranges = [
      { to: 200, percent: 1, counts: 2, resolution: 0.1, inputResistanceOhms: undefined },
      { to: 2000, percent: 2, counts: 3, resolution: 1, inputResistanceOhms: undefined },
    ];
    const meter = makeInstrument(
      { percent: 0, counts: 0, resolution: 1, to: 1 },
      { quantities: { 'voltage-dc': { unit: 'mV', ranges } } },
    );
    const assessText = (text: string): Doubt | undefined => {
      const parsed = parseReading(text, makeTarget());
      return parsed.kind === 'problem' ? undefined : assessDoubt(parsed.reading, makeTarget(), meter);
    };
    // By hand: 1 % of 0.2 V + 2 × 0.1 mV = 2.2 mV; 2 % of 0.201 V + 3 × 1 mV = 7.02 mV.
    expect(assessText('0.200')?.accuracy).toBeCloseTo(0.0022, 12);
    expect(assessText('0.201')?.accuracy).toBeCloseTo(0.00702, 12);
    expect(assessText('0.201')?.isBeyondRange).toBe(false);
    expect(assessText('2.1')?.isBeyondRange).toBe(true);
    expect(convertUnit(2000, 'mV', 'V')).toBe(2);
  });
});

describe('what the instrument does to the circuit', () => {
  // A public electronics textbook, chapter on voltmeter impact, from memory: 24 V across 250 MΩ + 250 MΩ, a 10 MΩ meter shows
  // 0.8889 V across one of them where 12 V stand without it.
  test('a 10 MΩ meter on two resistors of 250 MΩ shows 0.8889 V for 12 V', () => {
    expect(correctLoading(0.888_889, 125e6, 10e6)).toBeCloseTo(12, 4);
  });

  // By hand: 5 V behind 500 kΩ. 10 MΩ shows 5 × 10/10.5 = 4.7619 V, 200 kΩ shows 5 × 0.2/0.7 = 1.42857 V.
  test('5 V behind 500 kΩ comes back from what two meters show', () => {
    expect(correctLoading(4.7619, 500e3, 10e6)).toBeCloseTo(5, 4);
    expect(correctLoading(1.42857, 500e3, 200e3)).toBeCloseTo(5, 4);
  });

  // By hand: load 33·33/66 + 4 = 20.5 pF; with 12 pF 45·33/78 + 4 = 23.04 pF; 10 fF (1/28.04 pF − 1/25.5 pF) = −35.5 ppm.
  // With 95 pF 128·33/161 + 4 = 30.24 pF: −108 ppm. Makers' notes on load capacitance give the formula, notes on probing 20 to 50 ppm.
  test('a x10 probe of 12 pF slows a typical crystal by 35.5 ppm, a x1 probe of 95 pF by 108 ppm', () => {
    expect(pullOfProbe(12e-12, typicalCrystal)).toBeCloseTo(-35.5, 1);
    expect(pullOfProbe(95e-12, typicalCrystal)).toBeCloseTo(-108, 0);
    expect(pullOfProbe(0, typicalCrystal)).toBe(0);
  });
});

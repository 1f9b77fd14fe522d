import { ownFormulas, computeOwn, exampleFigures, readOwnFigure, sayOwn } from '#core/reading/own-values.ts';
import type { OwnValuesName } from '#core/model/target.ts';
import { describe, expect, test } from 'vitest';

function compute(name: OwnValuesName, ...values: readonly number[]): number {
  return ownFormulas[name].compute(values);
}

describe('published examples of the formulas on target pages', () => {
  // Crystal makers' notes on load capacitance: for a crystal of 15 pF and 2 pF of board two capacitors of 26 pF are fitted.
  test('two 26 pF and 2 pF of board load a crystal with 15 pF', () => {
    expect(compute('crystal-load', 26e-12, 26e-12, 2e-12)).toBeCloseTo(15e-12, 14);
  });

  // The sheets of the LM317 class: output 1.25 V × (1 + R2/R1), adjust current left out; 240 Ω and 720 Ω make 5 V. From memory.
  test('240 Ω and 720 Ω make 5 V of the 1.25 V reference', () => {
    expect(compute('adjusted-output', 1.25, 240, 720)).toBeCloseTo(5, 10);
  });

  // US Navy, NEETS module 2, universal time constant chart: 63.2 % after one, 86.5 % after two, 98.2 % after four. From memory.
  test.each([
    [0.632, 1],
    [0.865, 2],
    [0.982, 4],
  ])('a capacitor is at %d of the supply after %d time constants, and as far down', (share, constants) => {
    expect(compute('charge-time', 1e3, 1e-3, 1, share)).toBeCloseTo(constants, 1);
    expect(compute('bleed-time', 1e3, 1e-3, 1, 1 - share)).toBeCloseTo(constants, 1);
  });

  // IEC 60335-1, clause 22.5, and IEC 60950-1, clause 2.1.1.7, from memory: the voltage of a plug falls with a time constant of one
  // second at most, so that it is down to 37 % after it. 0.47 µF and 1 MΩ have 0.47 s.
  test('0.47 µF through 1 MΩ falls to 37 % in less than half a second', () => {
    expect(compute('bleed-time', 1e6, 0.47e-6, 100, 37)).toBeCloseTo(0.467, 3);
  });

  // Makers' sheets of drives for 300 and 360 turns a minute give 200 and 166.7 ms between index pulses. From memory.
  test('200 ms are 300 turns a minute, 166.7 ms 360', () => {
    expect(compute('turns-a-minute', 0.2)).toBeCloseTo(300, 10);
    expect(compute('turns-a-minute', 0.1667)).toBeCloseTo(360, 0);
  });

  // Specification table of a general-purpose electrolytic series: tan δ 0.16 at 16 V. By hand: 0.16 ÷ (2π × 120 × 100 µF) = 2.12 Ω.
  test('100 µF with a loss factor of 0.16 has 2.12 Ω', () => {
    expect(compute('fresh-esr', 0.16, 100e-6)).toBeCloseTo(2.12, 2);
  });

  // The TTL data books’ open-collector example, from memory: four outputs of 0.25 mA leakage and three inputs of 40 µA and 1.6 mA at
  // 5 V want a pull-up from 411 to 2321 Ω.
  test('four open-collector outputs and three inputs want 411 to 2321 Ω', () => {
    expect(compute('pull-up-least', 5, 0.4, 16e-3, 3 * 1.6e-3)).toBeCloseTo(411, 0);
    expect(compute('pull-up-most', 5, 2.4, 4 * 0.25e-3, 3 * 0.04e-3)).toBeCloseTo(2321, 0);
  });

  // An output that sinks less than its inputs give can hold no line low, whatever the resistor.
  test('no pull-up is right where the output sinks less than the inputs give', () => {
    expect(
      sayOwn(
        ownFormulas['pull-up-least'],
        [5, 0.4, 4e-3, 4.8e-3].map((one) => ({ value: one, tolerance: 0 })),
      ),
    ).toBe('');
  });

  // Notes on probing crystals: a ×10 probe on the driven leg shifts by 20 to 50 parts in a million. By hand: the load goes from 20.5 to
  // 23.04 pF; 0.01 pF × (1 ÷ 28.04 − 1 ÷ 25.5) = −35.5 ppm.
  test('a probe of 12 pF pulls a usual crystal by about 35 ppm', () => {
    expect(compute('probe-pull', 33e-12, 33e-12, 4e-12, 12e-12, 5e-12, 0.02e-12)).toBeCloseTo(-35.5, 1);
  });

  // IEC 63035, clause 4.1, read in an excerpt: the loop carries 5 mA. An engineers’ list on synthesizer building (April 2003), read: with
  // 1.7 V over the light and next to nothing over the output, 3.3 V stand over 660 Ω, about 5 mA.
  test('1.7 V of light and three times 220 Ω at 5 V make the 5 mA of the standard', () => {
    expect(compute('current-loop', 5, 1.7, 0, 220, 220, 220)).toBeCloseTo(0.005, 12);
  });

  // By hand, each at its edge: (4.75 − 1.695 − 0.2) ÷ 693 = 4.12 mA and (5.25 − 1.305 − 0.2) ÷ 627 = 5.97 mA; 470 Ω for one 220 Ω: 3.63 mA.
  test('the worst cases of the loop are 4.1 and 6.0 mA, and one wrong resistor takes it to 3.6 mA', () => {
    const { value, least, most } = computeOwn(ownFormulas['current-loop'], exampleFigures(ownFormulas['current-loop']));
    expect([value, least, most].map((one) => Number((1000 * one).toFixed(2)))).toEqual([5, 4.12, 5.97]);
    expect(compute('current-loop', 5, 1.5, 0.2, 470, 220, 220)).toBeCloseTo(3.63e-3, 5);
  });

  // Howard and Angus, Acoustics and Psychoacoustics, 5th edition, appendix 3, read: cents = 3986.3137 × log10(f1 ÷ f2). A pure third, 5 to
  // 4, has 386.31 cents, as tuning tables print it; ISO 16 has A at 440 Hz, and the semitone above it is 466.16 Hz.
  test.each([
    [4, 5, 0, 1, 386.31],
    [256, 440, 0, 1, 3986.3137 * Math.log10(440 / 256)],
    [440, 466.16, 1 / 12, 1, 0],
    [220, 440, 0.32, 0.32, 0],
    [220, 440, 1, 0.5, -1200],
  ])('from %d Hz to %d Hz with %d V at %d V an octave is %d cents off', (first, second, step, octave, cents) => {
    expect(compute('pitch-step', first, second, step, octave)).toBeCloseTo(cents, 1);
  });

  // By hand, as no published example with these values was at hand: Ohm's law and I ÷ 2fC.
  test('worked by hand', () => {
    expect(compute('current-by-drop', 0.045, 0.1)).toBeCloseTo(0.45, 12);
    expect(compute('series-resistor', 5, 2, 0.01)).toBeCloseTo(300, 10);
    expect(compute('divider', 12, 2700, 1800)).toBeCloseTo(4.8, 10);
    expect(compute('ripple', 1, 50, 4700e-6)).toBeCloseTo(2.128, 3);
    expect(compute('ripple-trough', 9, 1, 1, 4700e-6, 50)).toBeCloseTo(8.6, 2);
    expect(compute('junction-heat', 75, 11, 5, 0.8, 5)).toBeCloseTo(99, 10);
  });
});

describe('the worst case of tolerances', () => {
  // By hand: 0.9 × 0.8 and 1.1 × 1.2 of the product, whatever the formula divides by.
  test('is the least and the most of all corners', () => {
    const { value, least, most } = computeOwn({ ...ownFormulas.ripple, compute: ([a = 0, b = 0]) => a * b }, [
      { value: 10, tolerance: 10 },
      { value: 2, tolerance: 20 },
    ]);
    expect([value, least, most].map((one) => Number(one.toFixed(9)))).toEqual([20, 14.4, 26.4]);
  });

  test('every worked example says a result', () => {
    for (const formula of Object.values(ownFormulas)) {
      expect(sayOwn(formula, exampleFigures(formula))).toMatch(/^[a-z ,]+: -?[\d.]+\u00a0/u);
    }
  });

  test('figures are read as a bench writes them, and hopeless ones are refused', () => {
    const [resistor] = ownFormulas['charge-time'].values;
    if (resistor === undefined) throw new Error('No value.');
    expect(readOwnFigure('4k7', '5', resistor)).toEqual({ value: 4700, tolerance: 5 });
    expect(readOwnFigure('4.7', '1,5 %', resistor)).toEqual({ value: 4700, tolerance: 1.5 });
    for (const [text, tolerance] of [
      ['', '5'],
      ['OL', '5'],
      ['4k7', '-1'],
      ['4k7', '99'],
      ['4k7', 'x'],
      ['22 µF', '5'],
    ] as const)
      expect(readOwnFigure(text, tolerance, resistor)).toBeUndefined();
  });
});

import { touchLimits } from '#core/model/touch-limit.ts';
import { describe, expect, test } from 'vitest';
import { findTarget, healthyLimits, reasonOf, statementOf } from './published-limits.ts';

/** Seconds from one voltage to another through a resistor: t = RC ln(start/end), Army course MM0704 on RC time constants. */
const bleed = (ohms: number, farads: number, from: number, to: number): number => ohms * farads * Math.log(from / to);

describe('bleed times of the charged-capacitor caution', () => {
  /** 230 V and 10 %, the highest ordinary mains of IEC 60038 (from memory), to its peak. */
  const highestPeak = 230 * 1.1 * Math.SQRT2;

  test('the highest ordinary mains of 253 V charges to 358 V', () => {
    expect(highestPeak).toBeCloseTo(358, 0);
    expect(reasonOf('charged-capacitor')).toContain('253 V ac, which charges to 358 V');
  });

  test('220 µF 20 % above its mark with 100 kΩ and 5 % needs 49.5 s to 60 V and 118 s to 5 V', () => {
    expect(bleed(105e3, 264e-6, 358, 60)).toBeCloseTo(49.5, 1);
    expect(bleed(105e3, 264e-6, 358, 5)).toBeCloseTo(118.4, 1);
    expect(reasonOf('charged-capacitor')).toContain('49.5 s to reach 60 V and 118 s to reach 5 V');
  });

  test('that capacitor holds 14 J, ½CV²', () => {
    expect(0.5 * 220e-6 * 358 ** 2).toBeCloseTo(14.1, 1);
    expect(reasonOf('charged-capacitor')).toContain('14 J at 358 V');
  });

  test('a 2.2 kΩ tool takes 58 W in the first instant and reaches 5 V in a few seconds', () => {
    expect(358 ** 2 / 2200).toBeCloseTo(58, 0);
    expect(bleed(2200 * 1.05, 264e-6, 358, 5)).toBeLessThan(3);
    expect(reasonOf('charged-capacitor')).toContain('2.2 kΩ takes about 58 W in the first instant');
  });

  test('the gate before hands go in is 5 V either way, below every published touch limit', () => {
    expect(healthyLimits('residual-charge')).toEqual([-5, 5]);
    // IEC 61010-1 wet, from memory: 35 V dc; Navy courses: be aware above 15 V.
    expect(5).toBeLessThan(15);
    expect(findTarget('residual-charge').status).toBe('practice');
  });
});

describe('the floating-unit test with 47 kΩ', () => {
  /**
   * Two equal Y capacitors from live and neutral to the floating chassis are half the mains behind both in parallel:
   * U = (V/2) R / √(R² + (1/(2π f 2C))²).
   */
  const leakage = (volts: number, hertz: number, eachFarads: number, meterOhms: number): number =>
    ((volts / 2) * meterOhms) / Math.hypot(meterOhms, 1 / (2 * Math.PI * hertz * 2 * eachFarads));

  test('a bare 10 MΩ meter shows about 115 V on 230 V, 50 Hz with two of 2.2 nF', () => {
    expect(leakage(230, 50, 2.2e-9, 10e6)).toBeCloseTo(115, 0);
    expect(reasonOf('scope-ground')).toContain('On 230 V a bare 10 MΩ meter shows about 115 V');
    const misread = findTarget('floating-leakage').misreads[0];
    expect(misread?.from).toBeLessThan(leakage(120, 60, 2.2e-9, 10e6) + 0.5);
    expect(misread?.to).toBeGreaterThan(leakage(253, 50, 4.7e-9, 10e6));
  });

  test('47 kΩ brings two of 2.2 nF to 7.5 V and two of 4.7 nF to 16 V', () => {
    expect(leakage(230, 50, 2.2e-9, 47e3)).toBeCloseTo(7.5, 1);
    expect(leakage(230, 50, 4.7e-9, 47e3)).toBeCloseTo(16, 0);
    expect(findTarget('floating-leakage').nominal).toBe(7.5);
    expect(reasonOf('scope-ground')).toContain('give about 7.5 V, two of 4.7 nF about 16 V');
    expect(statementOf('floating-leakage')).toContain('7.5 V on 230 V, two of 4.7 nF about 16 V');
  });

  test('the limit of 20 V passes both on the highest ordinary mains and never passes a live chassis', () => {
    const limit = healthyLimits('floating-leakage')[1] ?? 0;
    expect(limit).toBe(20);
    expect(leakage(253, 50, 4.7e-9, 47e3)).toBeLessThan(limit);
    expect(leakage(120, 60, 4.7e-9, 47e3)).toBeLessThan(limit);
    expect(100).toBeGreaterThan(limit);
  });

  test('a live chassis puts 1.1 W into the resistor, hence the 2 W', () => {
    expect(230 ** 2 / 47e3).toBeCloseTo(1.1, 1);
    expect(reasonOf('scope-ground')).toContain('takes 1.1 W, hence 2 W');
  });
});

describe('limits of touch, fuses and earth', () => {
  test('the compiler’s lines are 60 V dc, 30 V rms and 42.4 V peak, the last being 30 V times the square root of 2', () => {
    // From memory of IEC 61010-1 clause 6.3 and IEC 62368-1 table 4; 42.4 V peak read in IEC 60335-1 clause 8.1.4.
    expect(touchLimits).toEqual({ dcVolts: 60, acVoltsRms: 30, peakVolts: 42.4 });
    expect(30 * Math.SQRT2).toBeCloseTo(42.4, 1);
  });

  test('a fuse’s cold resistance is its greatest drop over its rating, from memory of the IEC 60127-2 sheets', () => {
    // 100 mA: 2.5 to 3.5 V; 250 mA: 1.3 V; 1 A: 0.2 V.
    expect(2.5 / 0.1).toBeCloseTo(25, 10);
    expect(3.5 / 0.1).toBeCloseTo(35, 10);
    expect(1.3 / 0.25).toBeCloseTo(5, 0);
    expect(statementOf('fuse-resistance')).toContain('25 to 35 Ω at 100 mA, 5 Ω at 250 mA and 0.2 Ω at 1 A');
    expect(findTarget('fuse-resistance').status).toBe('memory');
  });

  test('earth and insulation limits are those of portable-equipment tests, from memory', () => {
    // 0.1 Ω and the lead; 1 MΩ for an earthed unit.
    expect(healthyLimits('earth-continuity')[1]).toBeGreaterThanOrEqual(0.1);
    expect(healthyLimits('earth-continuity')[1]).toBeLessThanOrEqual(0.2);
    expect(healthyLimits('mains-insulation')).toEqual([1, undefined]);
    for (const slug of ['earth-continuity', 'mains-insulation']) expect(findTarget(slug).status).toBe('memory');
  });
});

import { readContent } from '#build/library.ts';
import { describe, expect, test } from 'vitest';
import { findTarget, healthyLimits, type PublishedRow, statementOf, variantLimits } from './published-limits.ts';

const rows: readonly PublishedRow[] = [
  // LM78xx data sheet, "Electrical Characteristics (LM7805)": 4.75 to 5.25 V, 5 mA to 1 A, VI 7 to 20 V. NCP7805 agrees.
  ['regulator-5v-out', 4.75, 5.25, 'read'],
  // The same line: input 7 to 20 V, so 7 V is the lowest that the ripple may touch.
  ['regulator-5v-trough', 7, 20, 'read'],
  // From memory of the LM7812 and LM7815 sheets, C grade over temperature: 11.4 to 12.6 V, 14.25 to 15.75 V.
  ['regulator-12v-out', 11.4, 12.6, 'memory'],
  ['regulator-15v-out', 14.25, 15.75, 'memory'],
  // From memory of the MC7905C, MC7912C and MC7915C tables: 5, 12 and 15 V within 5 %, as magnitudes.
  ['regulator-minus-5v-out', 4.75, 5.25, 'memory'],
  ['regulator-minus-12v-out', 11.4, 12.6, 'memory'],
  ['regulator-minus-15v-out', 14.25, 15.75, 'memory'],
  // LM117/LM317 electrical table: reference 1.20, 1.25, 1.30 V.
  ['adjustable-reference', 1.2, 1.3, 'read'],
  // TL431 electrical table, standard grade: 2.440, 2.495, 2.550 V at 10 mA and 25 °C.
  ['shunt-reference', 2.44, 2.55, 'read'],
  // 1N4001 to 1N4007 sheet: VF at most 1.1 V at 1 A, so 2.2 V for two; the lower limit is practice.
  ['bridge-two-diodes', 1.2, 2.2, 'computed'],
];

describe('regulator and rectifier limits are those of the makers’ sheets', () => {
  test.each(rows)('%s keeps its published limits and says where they come from', (slug, low, high, status) => {
    expect(healthyLimits(slug)).toEqual([low, high]);
    expect(findTarget(slug).status).toBe(status);
  });

  test('the typical values are those printed in the middle column of the sheets', () => {
    expect(findTarget('regulator-5v-out').nominal).toBe(5);
    expect(findTarget('adjustable-reference').nominal).toBe(1.25);
    expect(findTarget('shunt-reference').nominal).toBe(2.495);
  });

  test('minus rails are compared as magnitudes, so that a wrong sign has an answer of its own', () => {
    for (const slug of ['regulator-minus-5v-out', 'regulator-minus-12v-out', 'regulator-minus-15v-out']) {
      expect(findTarget(slug)).toMatchObject({ compare: 'magnitude', sign: 'negative' });
      expect(findTarget(slug).words).toContain('reversed');
    }
  });

  test('a 7905 needs its 5 V and the typical dropout of 2 V of the MC7900 table at its input', () => {
    expect(healthyLimits('minus-5v-in')).toEqual([5 + 2, undefined]);
  });

  test('a tab of 100 °C at 5 W brings the junction to 125 °C with the 5 °C/W of the L7800 series, table 2', () => {
    expect(100 + 5 * 5).toBe(125);
    expect(healthyLimits('regulator-tab')).toEqual([undefined, 100]);
    expect(statementOf('regulator-tab')).toContain('At 5 W a tab of 100 °C reaches it');
  });
});

describe('the worked ripple example follows from I/(2fC), peak less two diodes of 1 V', () => {
  const ripple = (amperes: number, hertz: number, farads: number): number => amperes / (2 * hertz * farads);
  const peak = 9 * Math.SQRT2 - 2;

  test('1 A, 4700 µF: 2.13 Vpp on 50 Hz mains and 1.77 Vpp on 60 Hz', () => {
    expect(ripple(1, 50, 4700e-6)).toBeCloseTo(2.13, 2);
    expect(ripple(1, 60, 4700e-6)).toBeCloseTo(1.77, 2);
    expect(statementOf('reservoir-ripple')).toContain('1 A, 4700 µF and 50 Hz give 2.13 Vpp, at 60 Hz 1.77 Vpp');
  });

  test('9 V secondary: peak 10.7 V, trough 8.6 V, and 7.3 V with the mains 10 % low', () => {
    expect(peak).toBeCloseTo(10.73, 2);
    expect(peak - ripple(1, 50, 4700e-6)).toBeCloseTo(8.6, 2);
    expect(0.9 * 9 * Math.SQRT2 - 2 - ripple(1, 50, 4700e-6)).toBeCloseTo(7.33, 2);
    expect(statementOf('regulator-5v-trough')).toContain(
      'peak of 10.7 V, a ripple of 2.1 Vpp and a trough of 8.6 V, or 7.3 V with the mains 10 % low',
    );
    expect(findTarget('regulator-5v-trough').nominal).toBe(8.6);
  });

  test('one open diode doubles the ripple: the trough falls to 6.5 V and the mean stays near 8.6 V', () => {
    const halfWave = 2 * ripple(1, 50, 4700e-6);
    expect(peak - halfWave).toBeCloseTo(6.47, 2);
    expect(peak - halfWave / 2).toBeCloseTo(8.6, 2);
    expect(statementOf('regulator-5v-in-mean')).toContain('near 8.6 V while the trough falls to 6.5 V');
  });

  test('9 V ac makes 12.7 V peak and about 11.3 V behind two lightly loaded diodes', () => {
    expect(9 * Math.SQRT2).toBeCloseTo(12.73, 2);
    expect(9 * Math.SQRT2 - 2 * 0.7).toBeCloseTo(11.33, 2);
    expect(statementOf('reservoir-dc')).toContain('9 V ac makes 12.7 V peak and about 11.3 V here');
  });

  test('a full-wave rectifier ripples at twice the mains frequency', () => {
    expect(variantLimits('ripple-frequency', 'mains-50')).toEqual({ low: 95, nominal: 100, high: 105 });
    expect(variantLimits('ripple-frequency', 'mains-60')).toEqual({ low: 114, nominal: 120, high: 126 });
  });

  test('the Quillon 44’s own figures follow from the parts that its page names', () => {
    const unit = readContent().library.units.get('quillon-44');
    expect(ripple(0.6, 50, 4700e-6)).toBeCloseTo(1.28, 2);
    expect(ripple(0.1, 50, 2200e-6)).toBeCloseTo(0.45, 2);
    expect(unit?.differs['psu-ripple']).toContain('0.6 A on 50 Hz predicts 1.3 Vpp');
    expect(unit?.differs['psu-ripple']).toContain('0.1 A from 2200 µF: 0.45 Vpp');
    const trough = peak - ripple(0.6, 50, 4700e-6);
    expect(Math.abs((unit?.targets['regulator-5v-trough']?.nominal ?? 0) - trough)).toBeLessThan(0.1);
    // Ohm's law over R2, 0.1 Ω.
    expect(0.045 / 0.1).toBeCloseTo(0.45, 10);
    expect(unit?.points['load-feed']).toContain('45 mV over it is 0.45 A');
  });
});

import { describe, expect, test } from 'vitest';
import { findTarget, healthyLimits, type PublishedRow, statementOf } from './published-limits.ts';

const rows: readonly PublishedRow[] = [
  // SDLS025B (74LS00), recommended operating conditions: VCC 4.75, 5, 5.25 V.
  ['rail-5v-at-chip', 4.75, 5.25, 'read'],
  // 7413 electrical table: VOH at least 2.4 V at −0.8 mA, typical 3.4 V.
  ['ttl-output-high', 2.4, undefined, 'read'],
  // SDLS025B: VOL at most 0.5 V at 8 mA (0.4 V at 4 mA); 7413: 0.4 V at 16 mA.
  ['ttl-output-low', undefined, 0.5, 'read'],
  // SDLS025B, absolute maximum ratings: VCC and input 7 V.
  ['ttl-absolute-max', undefined, 7, 'read'],
  // CD4001BC/CD4011BC dc table: VIH 3.5 V at VDD 5 V.
  ['cmos-input-high-5v', 3.5, undefined, 'read'],
  // From memory of the 74LS14 sheet: VT+ 1.4, 1.6, 1.9 V at 5 V.
  ['schmitt-rising', 1.4, 1.9, 'memory'],
  // 7413 sheet, VOH 2.4 V.
  ['clock-at-gate', 2.4, undefined, 'read'],
  // From memory of the Z80 class sheet: clock high at least VCC − 0.6 V.
  ['clock-at-processor', 4.4, undefined, 'memory'],
];

describe('logic levels are those of the makers’ sheets', () => {
  test.each(rows)('%s keeps its published limits and says where they come from', (slug, low, high, status) => {
    expect(healthyLimits(slug)).toEqual([low, high]);
    expect(findTarget(slug).status).toBe(status);
  });

  test('a 74HC input at 5 V wants 0.7 of its supply, the ratio that its sheet prints as 3.15 V at 4.5 V', () => {
    // 74HC02 static characteristics, table 6: VIH 3.15 V at VCC 4.5 V.
    const ratio = 3.15 / 4.5;
    expect(healthyLimits('hc-input-high')[0]).toBeCloseTo(ratio * 5, 10);
    expect(statementOf('hc-input-high')).toContain('3.15 V at a 4.5 V supply');
    expect(findTarget('hc-input-high').status).toBe('computed');
  });

  test('a 4000-series input high follows its table at 10 V and 15 V as well', () => {
    // CD4001BC/CD4011BC dc table: VIH 3.5, 7.0, 11.0 V at 5, 10, 15 V.
    expect(statementOf('cmos-input-high-5v')).toContain('3.5 V at a 5 V supply, 7.0 V at 10 V and 11.0 V at 15 V');
  });

  test.each(['logic-line', 'reset-released', 'drive-sensor-level'])(
    '%s is low up to VIL 0.8 V (SDLS025B) and high from VOH 2.4 V (7413), with nobody’s land between',
    (slug) => {
      expect(findTarget(slug).bands).toEqual([
        { name: 'low', from: undefined, to: 0.8 },
        { name: 'floating', from: 0.8, to: 2.4 },
        { name: 'in', from: 2.4, to: undefined },
      ]);
    },
  );

  test('a stopped clock that rests below VIL 0.8 V is nothing at all', () => {
    for (const slug of ['clock-at-gate', 'clock-at-processor']) {
      expect(findTarget(slug).bands[0]).toEqual({ name: 'none', from: undefined, to: 0.8 });
    }
  });

  test('LS outputs cannot promise what a 74HC or a 4000-series input asks for', () => {
    // SDLS025B: VOH 2.7 V at −0.4 mA.
    expect(2.7 - (healthyLimits('hc-input-high')[0] ?? 0)).toBeCloseTo(-0.8, 10);
    expect(2.7 - (healthyLimits('cmos-input-high-5v')[0] ?? 0)).toBeCloseTo(-0.8, 10);
    expect(statementOf('hc-input-high')).toContain('An LS output promises only 2.7 V');
  });

  test('an overvoltage is judged at the sheet’s 5.25 V and called damage at its absolute 7 V', () => {
    const bands = findTarget('rail-overvoltage').bands;
    expect(bands.find(({ name }) => name === 'in')?.to).toBe(5.25);
    expect(bands.find(({ name }) => name === 'damage')?.from).toBe(7);
  });

  test('older 74 inputs stand only 5.5 V, as SDLS025B prints for the parts without LS', () => {
    expect(statementOf('ttl-absolute-max')).toContain('allow only 5.5 V on an input');
  });

  test('a meter on a square wave of 0.2 to 3.4 V shows its mean of 1.8 V, which the floating band holds', () => {
    const mean = (0.2 + 3.4) / 2;
    expect(mean).toBeCloseTo(1.8, 10);
    const [low, high] = healthyLimits('ttl-input-floating');
    expect([low, high]).toEqual([1.2, 1.8]);
    expect(findTarget('ttl-input-floating').misreads[0]?.says).toContain('about 1.8 V');
    expect(findTarget('ttl-input-floating').status).toBe('practice');
  });
});

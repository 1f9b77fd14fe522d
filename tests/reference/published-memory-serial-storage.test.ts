import { describe, expect, test } from 'vitest';
import { findTarget, healthyLimits, type PublishedRow, statementOf } from './published-limits.ts';

const rows: readonly PublishedRow[] = [
  // From memory of the MK4116 and TMS4116 sheets: VBB −5 V, VDD 12 V, VCC 5 V, each within 10 %.
  ['memory-vbb', 4.5, 5.5, 'memory'],
  ['memory-vdd', 10.8, 13.2, 'memory'],
  ['memory-vcc-three-rail', 4.5, 5.5, 'memory'],
  // From memory of the 4164 and 41256 sheets: 5 V within 10 %.
  ['memory-vcc-single', 4.5, 5.5, 'memory'],
  // From memory of the 6116 and 6264 sheets: data retention from 2.0 V; supply 5 V within 10 %, so at most 5.5 V.
  ['sram-retention', 2, 5.5, 'memory'],
  // RS-232-C summary: driver 5 to 15 V under load, open circuit at most 25 V. At rest the line is unloaded.
  ['serial-idle', 5, 25, 'read'],
  // MC1489/DS1489 tables: turn-on 1.0, 1.25, 1.5 V; input resistance 3 to 7 kΩ.
  ['serial-receiver-on', 1, 1.5, 'read'],
  ['serial-receiver-input', 3, 7, 'read'],
  // From memory of the 1488 sheet's recommended supplies.
  ['serial-driver-rail', 7.5, 15, 'memory'],
  ['serial-driver-rail-minus', 7.5, 15, 'memory'],
];

describe('memory and serial limits are those of the makers’ sheets', () => {
  test.each(rows)('%s keeps its published limits and says where they come from', (slug, low, high, status) => {
    expect(healthyLimits(slug)).toEqual([low, high]);
    expect(findTarget(slug).status).toBe(status);
  });

  test.each([
    ['memory-vbb', 5],
    ['memory-vdd', 12],
    ['memory-vcc-three-rail', 5],
    ['memory-vcc-single', 5],
  ])('%s allows 10 % either side of %f V', (slug, volts) => {
    const [low, high] = healthyLimits(slug);
    expect(findTarget(slug).nominal).toBe(volts);
    expect(low).toBeCloseTo(volts * 0.9, 10);
    expect(high).toBeCloseTo(volts * 1.1, 10);
  });

  test('the three-rail substrate supply has its own answer for a wrong sign', () => {
    expect(findTarget('memory-vbb')).toMatchObject({ compare: 'magnitude', sign: 'negative' });
    expect(findTarget('memory-vbb').words).toContain('reversed');
  });

  test('pins of the 4116 are those that repair notes print: 1 VBB, 8 VDD, 9 VCC, 16 ground', () => {
    expect(statementOf('memory-vbb')).toContain('Pin 1 must read');
    expect(statementOf('memory-vdd')).toContain('red on pin 8');
    expect(statementOf('memory-vcc-three-rail')).toContain('red on pin 9');
    for (const slug of ['memory-vbb', 'memory-vdd', 'memory-vcc-three-rail', 'memory-vcc-single']) {
      expect(statementOf(slug)).toContain('ground is pin 16');
    }
  });

  test('every way to refresh comes to 64 kHz of row strobes: 128 in 2 ms, 256 in 4 ms, 512 in 8 ms', () => {
    for (const [rowCount, milliseconds] of [
      [128, 2],
      [256, 4],
      [512, 8],
    ] as const) {
      expect(healthyLimits('ras-rate')).toEqual([rowCount / milliseconds, undefined]);
    }
  });

  test('the 1489A turns later than the 1489, as its table prints', () => {
    expect(statementOf('serial-receiver-on')).toContain('The 1489 turns at 1.0 to 1.5 V, the 1489A at 1.75 to 2.25 V');
  });

  test('the 1488 promises 6 V from 9 V supplies and 9 V from 13.2 V, SLLS094B page 4', () => {
    expect(statementOf('serial-driver-rail')).toContain('with ±9 V it promises ±6 V out, with ±13.2 V ±9 V, into 3 kΩ');
  });

  test('a resting line is negative, and a receiver must decide beyond 3 V', () => {
    expect(findTarget('serial-idle')).toMatchObject({ compare: 'magnitude', sign: 'negative' });
    expect(statementOf('serial-idle')).toContain('5 to 15 V below ground');
    expect(statementOf('serial-idle')).toContain('Beyond 3 V a receiver must decide');
  });
});

describe('disk timing follows from the turns a minute', () => {
  test.each([
    // ISO 8860-1 Cor. 1: 300 turns a minute; the 1.5 % is from memory of drive specifications.
    ['index-period', 300, 197, 203],
    ['index-period-360', 360, 164.2, 169.2],
  ])('%s is 60 s over %i turns, within 1.5 %% of speed', (slug, turns, low, high) => {
    expect(60_000 / (turns * 1.015)).toBeCloseTo(low, 1);
    expect(Math.abs(60_000 / (turns * 0.985) - high)).toBeLessThan(0.06);
    expect(healthyLimits(slug)).toEqual([low, high]);
    expect(findTarget(slug).nominal).toBeCloseTo(60_000 / turns, 1);
    expect(findTarget(slug).status).toBe('memory');
  });

  test('203.5 ms is 294.8 turns a minute, 1.7 % slow, and judged high', () => {
    expect(60_000 / 203.5).toBeCloseTo(294.8, 1);
    expect((1 - 60_000 / 203.5 / 300) * 100).toBeCloseTo(1.7, 1);
    expect(203.5).toBeGreaterThan(healthyLimits('index-period')[1] ?? Number.POSITIVE_INFINITY);
    expect(statementOf('index-period')).toContain('203.5 ms is 294.8, 1.7 % slow');
  });

  test('MFM at 250 kbit/s has flux changes 2, 3 and 4 half cells of 2 µs apart, and half of that at 500 kbit/s', () => {
    // Floppy drive specification, page 20: 4, 6, 8 µs.
    const halfCell = 1e6 / 250_000 / 2;
    expect([2 * halfCell, 3 * halfCell, 4 * halfCell]).toEqual([4, 6, 8]);
    expect(healthyLimits('read-data-spacing')).toEqual([4 - 0.5, 8 + 0.5]);
    expect(statementOf('read-data-spacing')).toContain('4, 6 and 8 µs');
    expect(statementOf('read-data-spacing')).toContain('2, 3 and 4 µs');
    expect(statementOf('read-data-spacing')).toContain('MFM only');
  });

  test('the one drive sheet’s 400 ns within 20 % lies inside the wider limits that are from memory', () => {
    const [low, high] = healthyLimits('read-data-width');
    expect(findTarget('read-data-width').nominal).toBe(0.4);
    expect(low).toBeLessThan(0.32);
    expect(high).toBeGreaterThan(0.48);
    expect(findTarget('read-data-width').status).toBe('memory');
  });

  test('terminators are 150 Ω or 1 kΩ within 10 %, from memory of floppy interface practice', () => {
    const [low, high] = healthyLimits('drive-terminator');
    expect(low).toBeCloseTo(150 * 0.9, 10);
    expect(high).toBeCloseTo(1000 * 1.1, 10);
    expect(findTarget('drive-terminator').status).toBe('memory');
  });
});

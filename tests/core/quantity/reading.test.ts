import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { parseReading } from '#core/quantity/parse-reading.ts';
import {
  convertUnit,
  halfLastDigit,
  printLinkReading,
  printLinkText,
  printQuantity,
  printReading,
  type Reading,
  shiftDecimal,
  valueIn,
} from '#core/quantity/reading.ts';
import { type BaseUnit, takesPrefix } from '#core/quantity/unit.ts';

const quantityOf: Readonly<Partial<Record<BaseUnit, string>>> = {
  V: 'voltage-dc',
  'V rms': 'voltage-ac',
  Vpp: 'voltage-pp',
  A: 'current',
  Ω: 'resistance',
  F: 'capacitance',
  Hz: 'frequency',
  s: 'time',
  '%': 'ratio',
  ppm: 'ratio',
  '°C': 'temperature',
};
const signed: readonly BaseUnit[] = ['V', 'A', '%', 'ppm', '°C'];

/** Readings that a display can show: at most nine digits, the last from 10⁻¹² (units without prefix: 10⁻³) to 10⁶. */
const anyReading: fc.Arbitrary<Reading & { kind: 'number' }> = fc
  .constantFrom<BaseUnit>('V', 'V rms', 'Vpp', 'A', 'Ω', 'F', 'Hz', 's', '%', 'ppm', '°C')
  .chain((base) =>
    fc
      .tuple(
        fc.integer({ min: signed.includes(base) ? -999_999_999 : 0, max: 999_999_999 }),
        fc.integer({ min: takesPrefix(base) ? -12 : -3, max: takesPrefix(base) ? 6 : 0 }),
      )
      .map(([digits, lastDigit]) => ({ kind: 'number', value: shiftDecimal(digits, lastDigit) + 0, base, lastDigit })),
  );

describe('the form of links', () => {
  test.each<[Reading, string]>([
    [{ kind: 'number', value: 2.2e-7, base: 'F', lastDigit: -9 }, '220nF'],
    [{ kind: 'number', value: 1e-5, base: 'A', lastDigit: -6 }, '10uA'],
    [{ kind: 'number', value: 4700, base: 'Ω', lastDigit: 2 }, '4.7kohm'],
    [{ kind: 'number', value: 470, base: 'Ω', lastDigit: 1 }, '0.47kohm'],
    [{ kind: 'number', value: 4.7, base: 'V', lastDigit: -2 }, '4.70V'],
    [{ kind: 'number', value: 0, base: 'V', lastDigit: -2 }, '0.00V'],
    [{ kind: 'number', value: -0.05, base: 'V', lastDigit: -3 }, '-50mV'],
    [{ kind: 'number', value: 0.7, base: 'V rms', lastDigit: -1 }, '0.7Vrms'],
    [{ kind: 'number', value: 20, base: '%', lastDigit: 0 }, '20pct'],
    [{ kind: 'number', value: 0.4, base: 'Hz', lastDigit: -1 }, '0.4Hz'],
    [{ kind: 'over-range', base: 'Ω' }, 'OL'],
  ])('%j', (reading, text) => {
    expect(printLinkReading(reading)).toBe(text);
  });

  test('holds only letters, digits, point and minus, and begins as the grammar of links wants it', () => {
    fc.assert(
      fc.property(anyReading, (reading) => /^-?[A-Za-z0-9.-]{1,40}$/.test(printLinkReading(reading))),
      { numRuns: 2000 },
    );
  });

  test('what is printed for a link is read back as the same reading', () => {
    fc.assert(
      fc.property(anyReading, (reading) => {
        const quantity = quantityOf[reading.base] ?? '';
        const parsed = parseReading(printLinkReading(reading), { quantity, unit: reading.base });
        expect(parsed).toEqual({ kind: 'reading', reading });
      }),
      { numRuns: 5000 },
    );
  });

  test('what is printed for a person is read back as the same reading', () => {
    fc.assert(
      fc.property(anyReading, (reading) => {
        const quantity = quantityOf[reading.base] ?? '';
        const parsed = parseReading(printReading(reading), { quantity, unit: reading.base });
        expect(parsed).toEqual({ kind: 'reading', reading });
      }),
      { numRuns: 5000 },
    );
  });

  test('OL is read back for ohms', () => {
    expect(parseReading('OL', { quantity: 'resistance', unit: 'kΩ' })).toEqual({
      kind: 'reading',
      reading: { kind: 'over-range', base: 'Ω' },
    });
  });
});

describe('the form for people', () => {
  test('has a real minus and a no-break space', () => {
    expect(printReading({ kind: 'number', value: -4.71, base: 'V', lastDigit: -2 })).toBe('−4.71\u00a0V');
  });

  test('a computed value takes the prefix that suits it', () => {
    expect(printQuantity(3.3e-7, 'F', 3)).toBe('330\u00a0nF');
    expect(printQuantity(4433618.75, 'Hz', 5)).toBe('4.4336\u00a0MHz');
    expect(printQuantity(999.96, 'Ω', 4)).toBe('1\u00a0kΩ');
    expect(printQuantity(0, 'V', 3)).toBe('0\u00a0V');
    expect(printQuantity(12.34, '%', 3)).toBe('12.3\u00a0%');
  });
});

describe('units are converted by their prefix alone', () => {
  test('half of the last digit of 4.7 kΩ is 50 Ω', () => {
    const reading: Reading = { kind: 'number', value: 4700, base: 'Ω', lastDigit: 2 };
    expect(halfLastDigit(reading, 'Ω')).toBe(50);
    expect(halfLastDigit(reading, 'kΩ')).toBe(0.05);
    expect(valueIn(reading, 'kΩ')).toBe(4.7);
  });

  test('20 nF are 2e-8 F, and volts are no ohms', () => {
    expect(convertUnit(20, 'nF', 'F')).toBe(2e-8);
    expect(convertUnit(20, 'V', 'Ω')).toBeUndefined();
    expect(convertUnit(20, 'furlong', 'Ω')).toBeUndefined();
  });

  test('there and back is where it was', () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e12, max: 1e12 }), (value) => {
        const back = convertUnit(convertUnit(value, 'kΩ', 'mΩ') ?? 0, 'mΩ', 'kΩ') ?? Number.NaN;
        return Math.abs(back - value) <= Math.abs(value) * 1e-15;
      }),
    );
  });
});

// Signs of units and prefixes, and the space between figure and unit: SI Brochure, 9th edition 2019, sections 3 and 5.4.3.
it.each([
  ['0.3ohm', '0.3\u00a0Ω'],
  ['4.7kohm', '4.7\u00a0kΩ'],
  ['-12uV', '−12\u00a0µV'],
  ['4.71V', '4.71\u00a0V'],
  ['50.0Hz', '50.0\u00a0Hz'],
  ['80pct', '80\u00a0%'],
  ['OL', 'OL'],
  ['no reading', 'no reading'],
  ['4.71parsec', '4.71parsec'],
  ['', ''],
])('%s is written %s', (text, printed) => {
  expect(printLinkText(text)).toBe(printed);
});

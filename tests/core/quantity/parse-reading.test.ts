import { type ExpectedReading, parseReading } from '#core/quantity/parse-reading.ts';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';

const volts: ExpectedReading = { quantity: 'voltage-dc', unit: 'V' };
const ohms: ExpectedReading = { quantity: 'resistance', unit: 'Ω' };
const farads: ExpectedReading = { quantity: 'capacitance', unit: 'F' };

/** Value in the unit without prefix, and the power of ten of the last digit; or the code of the problem. */
function read(text: string, expected: ExpectedReading): readonly [value: number, lastDigit: number] | string {
  const parsed = parseReading(text, expected);
  if (parsed.kind === 'problem') return parsed.problem.code;
  return parsed.reading.kind === 'over-range' ? 'OL' : [parsed.reading.value, parsed.reading.lastDigit];
}

// Expected values: by hand, from the SI prefixes (SI Brochure 2019, table 7) and the letter code of IEC 60062.
describe('what people type is read', () => {
  test.each<[string, ExpectedReading, number, number]>([
    ['4.71', volts, 4.71, -2],
    ['4,71 V', volts, 4.71, -2],
    ['  4.710V ', volts, 4.71, -3],
    ['3v3', volts, 3.3, -1],
    ['1e-3', volts, 0.001, -3],
    ['-5', volts, -5, 0],
    ['−5.02 V', volts, -5.02, -2],
    ['+12.1 volts', volts, 12.1, -1],
    ['.5', volts, 0.5, -1],
    ['5.', volts, 5, 0],
    ['47 mV', volts, 0.047, -3],
    ['47m', volts, 0.047, -3],
    ['5,07 V DC', volts, 5.07, -2],
    ['0', volts, 0, 0],
    ['4k7', ohms, 4700, 2],
    ['4K7', ohms, 4700, 2],
    ['0R47', ohms, 0.47, -2],
    ['47R', ohms, 47, 0],
    ['1M2', ohms, 1_200_000, 5],
    ['4.7kohm', ohms, 4700, 2],
    ['4.7 Kohms', ohms, 4700, 2],
    ['4.7 k\u2126', ohms, 4700, 2],
    ['2.2 meg', ohms, 2_200_000, 5],
    ['short', ohms, 0, 0],
    ['330n', farads, 3.3e-7, -9],
    ['0.33 uF', farads, 3.3e-7, -8],
    ['0.33 \u00b5F', farads, 3.3e-7, -8],
    ['0.33 \u03bcF', farads, 3.3e-7, -8],
    ['4n7', farads, 4.7e-9, -10],
    ['4n7F', farads, 4.7e-9, -10],
    ['100 NF', farads, 1e-7, -9],
    ['4.7', { quantity: 'resistance', unit: 'kΩ' }, 4700, 2],
    ['4k7', { quantity: 'resistance', unit: 'kΩ' }, 4700, 2],
    ['45', { quantity: 'voltage-pp', unit: 'mVpp' }, 0.045, -3],
    ['45 mV', { quantity: 'voltage-pp', unit: 'mVpp' }, 0.045, -3],
    ['45 mVp-p', { quantity: 'voltage-pp', unit: 'mVpp' }, 0.045, -3],
    ['0.7 VAC', { quantity: 'voltage-ac', unit: 'V rms' }, 0.7, -1],
    ['4.433619 MHz', { quantity: 'frequency', unit: 'MHz' }, 4_433_619, 0],
    ['20pct', { quantity: 'ratio', unit: '%' }, 20, 0],
    ['-1.5 %', { quantity: 'ratio', unit: '%' }, -1.5, -1],
    ['71 °C', { quantity: 'temperature', unit: '°C' }, 71, 0],
    ['71 C', { quantity: 'temperature', unit: '°C' }, 71, 0],
  ])('%s', (text, expected, value, lastDigit) => {
    expect(read(text, expected)).toEqual([value, lastDigit]);
  });

  test.each(['OL', 'ol', '0L', 'O.L', 'OVER', 'over range', 'OL MΩ', 'OL k', 'open', 'open circuit', '∞'])(
    '%s is over range on ohms and on the diode range',
    (text) => {
      expect(read(text, ohms)).toBe('OL');
      expect(read(text, { quantity: 'diode-test', unit: 'V' })).toBe(/MΩ/.test(text) ? 'wrong-unit' : 'OL');
    },
  );
});

describe('hopeless text gets a message', () => {
  test.each<[string, ExpectedReading, string]>([
    ['', volts, 'empty'],
    ['   ', volts, 'empty'],
    ['NaN', volts, 'not-a-number'],
    ['Infinity', volts, 'not-a-number'],
    ['five', volts, 'not-a-number'],
    ['~4.7', volts, 'not-a-number'],
    ['<0.1', volts, 'not-a-number'],
    ['0x10', volts, 'not-a-number'],
    ['4.7.1', volts, 'two-decimal-signs'],
    ['1,234.5', volts, 'two-decimal-signs'],
    ['12 345', volts, 'two-decimal-signs'],
    ['1e999', volts, 'too-large'],
    ['-1e999', volts, 'too-large'],
    ['1e-999', volts, 'too-small'],
    ['1234567890123456', volts, 'too-many-digits'],
    ['9'.repeat(200), volts, 'too-long'],
    ['4.7 A', volts, 'wrong-unit'],
    ['4.7 ohm', volts, 'wrong-unit'],
    ['4k7 Ω', volts, 'wrong-unit'],
    ['0R47', volts, 'wrong-unit'],
    ['4.7 Vpp', { quantity: 'voltage-ac', unit: 'V rms' }, 'wrong-unit'],
    ['4.7 Vrms', volts, 'wrong-unit'],
    ['160 °F', { quantity: 'temperature', unit: '°C' }, 'wrong-unit'],
    ['4.7 florins', volts, 'unknown-unit'],
    ['4k7m', ohms, 'unknown-unit'],
    ['2k%', { quantity: 'ratio', unit: '%' }, 'unknown-unit'],
    ['2k', { quantity: 'ratio', unit: '%' }, 'wrong-unit'],
    ['4.43 mHz', { quantity: 'frequency', unit: 'Hz' }, 'unlikely-prefix'],
    ['10 MF', farads, 'unlikely-prefix'],
    ['-47', ohms, 'negative'],
    ['-0.1', ohms, 'negative'],
    ['-3n', farads, 'negative'],
    ['-0.1', { quantity: 'voltage-pp', unit: 'mVpp' }, 'negative'],
    ['-50', { quantity: 'frequency', unit: 'Hz' }, 'negative'],
    ['-47', { quantity: 'time', unit: 'µs' }, 'negative'],
    ['OL', volts, 'over-range'],
    ['-OL', volts, 'over-range'],
    ['open', volts, 'over-range'],
    ['short', volts, 'not-a-number'],
  ])('%j: %#', (text, expected, code) => {
    const parsed = parseReading(text, expected);
    expect(parsed).toMatchObject({ kind: 'problem', problem: { code } });
    expect(parsed.kind === 'problem' && parsed.problem.message).toMatch(/^[A-Z“].{15,180}\.$/);
  });

  test('a resistance below zero sends the reader to discharge the circuit', () => {
    expect(parseReading('-47', ohms)).toMatchObject({
      problem: { message: expect.stringContaining('Power off, prove it discharged') },
    });
  });

  test('a little below zero sends the reader to take the leads off anew, and leaves the sign of what has one', () => {
    expect(parseReading('-0.1', ohms)).toMatchObject({
      problem: { message: expect.stringMatching(/Short the leads.+take off just that/) },
    });
    expect(parseReading('-3n', farads)).toMatchObject({
      problem: { message: expect.stringContaining('Hold them open') },
    });
    for (const text of ['-0.0', '0.0']) expect(read(text, ohms)).toEqual([0, -1]);
    expect(read('-0.1', { quantity: 'temperature', unit: '°C' })).toEqual([-0.1, -1]);
  });

  test('no text throws', () => {
    const unit = fc.constantFrom(volts, ohms, farads, { quantity: 'ratio', unit: 'ppm' }, { quantity: 'x', unit: '?' });
    const nearly = fc.string({ unit: fc.constantFrom(...'0123456789.,eE+-kKmMuµnVRΩ OL%°'.split('')), maxLength: 60 });
    fc.assert(
      fc.property(fc.oneof(fc.string({ unit: 'binary', maxLength: 250 }), nearly), unit, (text, expected) => {
        const parsed = parseReading(text, expected);
        if (parsed.kind === 'problem') return parsed.problem.message.length > 15;
        return parsed.reading.kind === 'over-range' || Number.isFinite(parsed.reading.value);
      }),
      { numRuns: 3000 },
    );
  });
});

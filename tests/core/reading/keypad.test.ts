import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseReading } from '#core/quantity/parse-reading.ts';
import { type Key, listKeys, pressKey } from '#core/reading/keypad.ts';

const figure = (text: string): Key => ({ kind: 'figure', text });
const unit = (text: string): Key => ({ kind: 'unit', text });
const press = (keys: readonly Key[], entry = ''): string => keys.reduce(pressKey, entry);

describe('keys of the keypad', () => {
  it.each<readonly [string, string, readonly Key[], string]>([
    ['figures and a point', '', [figure('4'), figure('.'), figure('7'), figure('1')], '4.71'],
    ['a point first', '', [figure('.'), figure('5')], '0.5'],
    ['a second point is left out', '4.7', [figure('.'), figure('1')], '4.71'],
    ['a unit goes behind', '4.7', [unit('kΩ')], '4.7 kΩ'],
    ['another unit replaces it', '4.7 kΩ', [unit('MΩ')], '4.7 MΩ'],
    ['the same unit again takes it away', '4.7 kΩ', [unit('kΩ')], '4.7'],
    ['figures go in front of the unit', '4.7 kΩ', [figure('1')], '4.71 kΩ'],
    ['a unit first, then figures', '', [unit('mV'), figure('8')], '8 mV'],
    ['the sign turns', '4.7 V', [{ kind: 'sign' }], '-4.7 V'],
    ['the sign turns back', '-4.7 V', [{ kind: 'sign' }], '4.7 V'],
    ['the sign may come first', '', [{ kind: 'sign' }, figure('5')], '-5'],
    ['over-range replaces all', '4.7 kΩ', [{ kind: 'word', text: 'OL' }], 'OL'],
    ['a figure replaces over-range', 'OL', [figure('5')], '5'],
    ['erasing takes the unit first', '4.7 kΩ', [{ kind: 'erase' }, { kind: 'erase' }], '4.'],
    ['erasing takes over-range', 'OL', [{ kind: 'erase' }], ''],
    ['erasing nothing leaves nothing', '', [{ kind: 'erase' }], ''],
  ])('%s', (_name, entry, keys, expected) => expect(press(keys, entry)).toBe(expected));

  it('throw nothing and make no entry longer than a field takes, whatever stands there and is pressed', () => {
    const key = fc.oneof(
      fc.constantFrom('0', '1', '9', '.').map(figure),
      fc.constantFrom('mV', 'V').map(unit),
      fc.constant<Key>({ kind: 'sign' }),
      fc.constant<Key>({ kind: 'erase' }),
    );
    fc.assert(
      fc.property(fc.array(key, { maxLength: 60 }), (keys) => {
        const entry = press(keys);
        expect(entry.length).toBeLessThanOrEqual(40);
        expect(() => parseReading(entry, { quantity: 'voltage-dc', unit: 'V' })).not.toThrow();
      }),
    );
  });

  it('suit the quantity: every unit offered is read back as a unit of the field', () => {
    for (const expected of [
      { quantity: 'voltage-dc', unit: 'V' },
      { quantity: 'voltage-pp', unit: 'mVpp' },
      { quantity: 'resistance', unit: 'kΩ' },
      { quantity: 'capacitance', unit: 'µF' },
      { quantity: 'frequency', unit: 'Hz' },
      { quantity: 'time', unit: 'µs' },
      { quantity: 'temperature', unit: '°C' },
      { quantity: 'ratio', unit: '%' },
    ]) {
      const { units } = listKeys(expected);
      expect(units.length).toBeGreaterThan(0);
      for (const text of units) expect(parseReading(`4.7 ${text}`, expected).kind, text).toBe('reading');
    }
    expect(listKeys({ quantity: 'resistance', unit: 'Ω' })).toEqual({
      units: ['mΩ', 'Ω', 'kΩ', 'MΩ'],
      hasSign: false,
      hasOverRange: true,
    });
  });
});

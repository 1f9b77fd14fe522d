import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readTokens } from '#core/search/read-tokens.ts';

function amountsIn(text: string): readonly (readonly [string, number])[] {
  return readTokens(text).flatMap(({ amount }) =>
    amount === undefined ? [] : [[amount.quantity, amount.value] as const],
  );
}

describe('numbers in a query', () => {
  it.each([
    ['only 4.4v here', 'voltage', 4.4],
    ['only 4,4 V here', 'voltage', 4.4],
    ['4v4 at the chip', 'voltage', 4.4],
    ['four and a half volts', 'voltage', 4.5],
    ['four point five volts', 'voltage', 4.5],
    ['drops to four volts', 'voltage', 4],
    ['loses half a volt', 'voltage', 0.5],
    ['minus twelve volts gone', 'voltage', -12],
    ['no -5v', 'voltage', -5],
    ['no −5 V', 'voltage', -5],
    ['no +12', 'voltage', 12],
    ['reads 4.7ish', 'voltage', 4.7],
    ['100hz hum', 'frequency', 100],
    ['15.6 kHz whine', 'frequency', 15_600],
    ['a 4 MHz crystal', 'frequency', 4_000_000],
    ['0.3 ohm to ground', 'resistance', 0.3],
    ['2 kohm', 'resistance', 2000],
    ['spins at 300 rpm', 'speed', 300],
    ['dies after ten minutes', 'time', 600],
    ['250mv of ripple', 'amplitude', 250],
    ['2 amp fuse', 'current', 2],
  ])('"%s" holds %s %d', (text, quantity, value) => {
    const [first] = amountsIn(text);
    expect(first?.[0]).toBe(quantity);
    expect(first?.[1]).toBeCloseTo(value, 9);
  });

  it('sizes of disks, part numbers and plain counts are no amounts', () => {
    for (const text of ['5.25 drive', '3.5 inch disk', '7805', 'z80', '74ls04', 'third of 8 chips'])
      expect(amountsIn(text)).toEqual([]);
  });
});

describe('words in a query', () => {
  it('lose apostrophes and endings, and keep their place in the text', () => {
    const text = "Won't load, keys stuck";
    const tokens = readTokens(text);
    expect(tokens.map(({ stem }) => stem)).toEqual(['wont', 'load', 'key', 'stuck']);
    expect(tokens.map(({ start, end }) => text.slice(start, end))).toEqual(["Won't", 'load', 'keys', 'stuck']);
    expect(tokens.map(({ isAfterStop }) => isAfterStop)).toEqual([false, false, true, false]);
  });

  it('are at most sixty, whatever comes in', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 3000 }), (text) => {
        const tokens = readTokens(text);
        return tokens.length <= 60 && tokens.every(({ start, end }) => 0 <= start && start < end && end <= text.length);
      }),
    );
    expect(readTokens('word '.repeat(2000))).toHaveLength(60);
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bandColours, nameBands, readBands, readMarking } from '#core/reading/marking.ts';

/** Kind and value of each meaning, in picofarads or ohms. */
function meaningsOf(text: string): readonly string[] {
  return readMarking(text).meanings.map(({ part, value }) => {
    if (value === undefined) return part;
    return part === 'capacitor' ? `${Number((value * 1e12).toPrecision(9))} pF` : `${value} Ω`;
  });
}

describe('letter and digit code', () => {
  // IEC 60062, the table of examples as an encyclopedia's page on the RKM code prints it, read.
  it.each([
    ['R47', 0.47],
    ['4R7', 4.7],
    ['470R', 470],
    ['4K7', 4700],
    ['47K', 47_000],
    ['47K3', 47_300],
    ['470K', 470_000],
    ['4M7', 4_700_000],
  ])('%s is a resistor of %d ohms first', (text, ohms) => {
    expect(readMarking(text).meanings[0]).toMatchObject({ part: 'resistor', value: ohms });
  });

  // IEC 60062, from memory: p33, 3p3, 33n, 3n3, µ33 and their like are capacitors.
  it.each([
    ['p33', '0.33 pF'],
    ['3p3', '3.3 pF'],
    ['4n7', '4700 pF'],
    ['330n', '330000 pF'],
    ['µ33', '330000 pF'],
    ['u1', '100000 pF'],
    ['100nF', '100000 pF'],
  ])('%s is a capacitor of %s', (text, said) => {
    expect(meaningsOf(text)).toEqual([said]);
  });

  // Letters of IEC 60062, read in three published tables that agree: B 0.1, C 0.25, D 0.5, F 1, G 2, J 5, K 10, M 20 per cent.
  it.each([
    ['4K7B', '±0.1\u00a0%'],
    ['4K7C', '±0.25\u00a0%'],
    ['4K7D', '±0.5\u00a0%'],
    ['4K7F', '±1\u00a0%'],
    ['4K7G', '±2\u00a0%'],
    ['4K7J', '±5\u00a0%: 4.465\u00a0kΩ to 4.935\u00a0kΩ'],
    ['4K7K', '±10\u00a0%'],
    ['4K7M', '±20\u00a0%'],
    // Below 10 pF the letter is picofarads, as the same tables say.
    ['4p7C', '±0.25\u00a0pF: 4.45\u00a0pF to 4.95\u00a0pF'],
    ['4n7F', '±1\u00a0%'],
  ])('%s says %s', (text, said) => {
    expect(readMarking(text).meanings[0]?.says).toContain(said);
  });
});

describe('three digits', () => {
  // A maker's sheet of tantalum chips, read: 474 is 470 000 pF = 0.47 µF and 475 is 4.7 µF. Published tables, read: 103M is 10 nF, 105K is
  // 1 µF ±10 %, 229 is 2.2 pF since a 9 stands for a tenth.
  it.each([
    ['474', '470000 pF'],
    ['475', '4700000 pF'],
    ['103M', '10000 pF'],
    ['105K', '1000000 pF'],
    ['229', '2.2 pF'],
    ['473Z', '47000 pF'],
  ])('%s is a capacitor of %s first', (text, said) => {
    expect(meaningsOf(text)[0]).toBe(said);
  });

  it('says every meaning where there are several', () => {
    expect(meaningsOf('104')).toEqual(['100000 pF', '100000 Ω']);
    expect(meaningsOf('104K')).toEqual(['100000 pF', '100000 Ω', '104000 Ω']);
    expect(meaningsOf('47K')).toEqual(['47000 Ω', '47 pF']);
    expect(meaningsOf('4R7')).toEqual(['4.7 Ω', '4.7 pF']);
    expect(meaningsOf('470')).toEqual(['47 pF', '47 Ω', '470 pF']);
    expect(meaningsOf('4.7K')).toEqual(['4700 Ω', '4700000 pF']);
    expect(meaningsOf('4.7 kΩ')).toEqual(['4700 Ω']);
  });

  it('says of a maker’s voltage letters that its sheet must say them', () => {
    expect(readMarking('2A104J').meanings.map(({ says }) => says)).toEqual([
      expect.stringMatching(/^Capacitor, 100.nF ±5.%.*look in the maker’s sheet\.$/u),
    ]);
  });
});

describe('four digits', () => {
  // A collectors' list on date codes (April 1998) and a tutorial, read: 7830 is week 30 of 1978, 8101 the first of 1981, 8332 week 32 of 1983.
  it.each([
    ['7830', 'week 30 of 1978'],
    ['8101', 'week 1 of 1981'],
    ['8332', 'week 32 of 1983'],
    ['7404', 'week 4 of 1974'],
    ['7805', 'week 5 of 1978'],
  ])('%s can be %s, and the number of a part', (text, said) => {
    const { meanings } = readMarking(text);
    expect(meanings.slice(0, 2).map(({ part }) => part)).toEqual(['date code', 'part number']);
    expect(meanings[0]?.says).toContain(said);
  });

  it.each(['7400', '8255', '6522', '4164', '0184'])('%s is no date', (text) => {
    const { meanings } = readMarking(text);
    expect(meanings.map(({ part }) => part)).not.toContain('date code');
    expect(meanings[0]?.says).toContain('It is not a date');
  });
});

describe('colour bands', () => {
  // Published tables of IEC 60062 with worked examples, read; the six bands from the same tables: red is 50 ppm.
  it.each([
    ['brown black red gold', 1000, '±5'],
    ['yellow violet red gold', 4700, '±5'],
    ['red red orange silver', 22_000, '±10'],
    ['brown black black gold brown', 10, '±1'],
    ['red red black yellow brown', 2_200_000, '±1'],
    ['red violet black brown brown red', 2700, '50 ppm'],
  ])('%s is %d ohms', (bands, ohms, said) => {
    const [first] = readBands(bands.split(' ')).meanings;
    expect(first?.value).toBe(ohms);
    expect(first?.says).toContain(said);
  });

  it('reads from the other end where this one gives no value, and says both where both do', () => {
    expect(readBands(['gold', 'red', 'violet', 'yellow']).meanings.map(({ value }) => value)).toEqual([4700]);
    const both = readBands(['brown', 'black', 'black', 'red', 'brown']).meanings.map(({ value }) => value);
    expect(both).toEqual([10_000, 120]);
  });

  // IEC 60063: 4.7 is of E24, 4.8 is not, nor is 4.80 of E96 or E192 (4.75 and 4.81 are).
  it('doubts a value of no series, and a number of bands that is none', () => {
    expect(readBands(['yellow', 'grey', 'red', 'gold']).meanings[0]?.says).toContain('not a usual value');
    expect(readBands(['yellow', 'violet']).problem).toContain('Neither end');
    expect(readBands(['black', 'black', 'black', 'black']).problem).toContain('Neither end');
  });

  it('names as many bands as there are', () => {
    for (const count of [4, 5, 6]) expect(nameBands(count)).toHaveLength(count);
  });
});

describe('what is none', () => {
  it.each(['', '   ', 'SN7404N', '<b>104</b>', 'R', '104Q', '012', 'OL', '∞', '4K7K7'])(
    '“%s” gets a plain sentence',
    (text) => {
      const { meanings, problem } = readMarking(text);
      expect(meanings).toEqual([]);
      expect(problem).toMatch(/\.$/u);
    },
  );

  it('never throws, and always says something: 2,000 texts and 2,000 rows of bands', () => {
    const text = fc.oneof(fc.string({ unit: 'grapheme' }), fc.stringMatching(/^[0-9RKMpnuµBCDFGJZ.,]{0,7}$/u));
    fc.assert(
      fc.property(text, (typed) => {
        const { meanings, problem } = readMarking(typed);
        expect(meanings.length > 0).toBe(problem === undefined);
        for (const { says } of meanings) expect(says).not.toMatch(/undefined|NaN/u);
      }),
      { numRuns: 2000 },
    );
    fc.assert(
      fc.property(
        fc.array(fc.oneof(fc.constantFrom(...bandColours.map(([name]) => name)), fc.string()), { maxLength: 8 }),
        (bands) => {
          const { meanings, problem } = readBands(bands);
          expect(meanings.length > 0).toBe(problem === undefined);
          for (const { says } of meanings) expect(says).not.toMatch(/undefined|NaN/u);
        },
      ),
      { numRuns: 2000 },
    );
  });
});

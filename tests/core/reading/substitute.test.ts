import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { comparedRoles, substituteRoles } from '#core/model/substitute-roles.ts';
import { judgePart, type Pair, partCriteria } from '#core/reading/substitute.ts';

/** Pairs in the order of the criteria, each told by a word of its name. */
function judge(kind: string, told: Readonly<Record<string, Pair>>): ReturnType<typeof judgePart> {
  const criteria = partCriteria[kind] ?? [];
  const unused = Object.keys(told).filter((name) => !criteria.some((criterion) => criterion.name.includes(name)));
  expect(unused).toEqual([]);
  return judgePart(
    kind,
    criteria.map(({ name }) => Object.entries(told).find(([word]) => name.includes(word))?.[1] ?? ['', '']),
  );
}

function lineOf(kind: string, name: string, ...pair: Pair): string {
  return judge(kind, { [name]: pair }).lines.find((line) => line.name.includes(name))?.fit ?? 'no such line';
}

const reservoir: Readonly<Record<string, Pair>> = {
  Capacitance: ['4700', '6800'],
  Voltage: ['25', '35'],
  Class: ['85 °C', '105 °C'],
  Ripple: ['2.1', '2.6'],
  Made: ['aluminium', 'aluminium'],
  legs: ['', 'the same'],
};

describe('a capacitor by its role', () => {
  it('fits where every line does, and what is not known is never called fit', () => {
    expect(judge('reservoir', reservoir).fit).toBe('fits');
    const { Ripple: _left, ...rest } = reservoir;
    expect(judge('reservoir', rest).fit).toBe('not known yet');
    expect(judgePart('reservoir', []).fit).toBe('not known yet');
  });

  // The project's rule for a reservoir, common practice: the same capacitance up to twice it. By hand: 9400 is twice 4700.
  it.each([
    ['reservoir', '4700', '9400', 'fits'],
    ['reservoir', '4700', '10000', 'does not fit'],
    ['reservoir', '4700', '3300', 'does not fit'],
    ['reservoir', '4.7m', '4700', 'fits'],
    ['decoupling', '100', '47', 'does not fit'],
    ['decoupling', '100', '220', 'fits with care'],
    ['coupling', '10', '4.7', 'does not fit'],
    ['coupling', '10', '47', 'fits with care'],
    ['timing', '10', '22', 'does not fit'],
    ['timing', '10n', '0.01u', 'fits'],
    ['reservoir', '4700', 'big', 'not known yet'],
  ])('%s: %s µF or nF replaced by %s %s', (kind, fitted, hand, said) => {
    expect(lineOf(kind, 'Capacitance', fitted, hand)).toBe(said);
  });

  it('takes no lower voltage, class or sort', () => {
    const worse: readonly (readonly [string, Pair])[] = [
      ['Voltage', ['25', '16']],
      ['Class', ['105 °C', '85 °C']],
      ['Made', ['aluminium', 'tantalum']],
    ];
    for (const [name, pair] of worse)
      expect(judge('reservoir', { ...reservoir, [name]: pair }).fit).toBe('does not fit');
  });

  // 79xx sheets, from memory: 1 µF of tantalum or 25 µF of aluminium at the output.
  it('lets tantalum become aluminium at a regulator with care, and never ceramic', () => {
    expect(lineOf('regulator-stability', 'Made', 'tantalum', 'aluminium')).toBe('fits with care');
    expect(lineOf('regulator-stability', 'Made', 'tantalum', 'ceramic')).toBe('does not fit');
  });

  it('calls no part on the mains side fit, nor a kind that it does not know', () => {
    for (const kind of ['mains-safety', 'transformer', 'nonsense', '__proto__'])
      expect(judgePart(kind, [['X2', 'X2']])).toEqual({ fit: 'does not fit', lines: [] });
  });
});

describe('logic families', () => {
  // By hand, from the sheets of SDLS025B (74LS), 7413, 74HC02 and CD4001BC: an LS output promises 2.7 V, a 74HC input wants 3.5 V at 5 V,
  // a 74HCT one 2.0 V; a 4000B output sinks 0.44 mA and an LS input gives 0.4 mA: one load.
  it.each([
    ['74LS', '74LS', 'fits'],
    ['74LS', '74HC', 'does not fit'],
    ['74LS', '74HCT', 'fits with care'],
    ['74LS', '4000', 'does not fit'],
    ['4000', '74LS', 'does not fit'],
    ['74HC', '74LS', 'does not fit'],
    ['74HC', '74HCT', 'fits'],
  ])('%s replaced by %s %s', (fitted, hand, said) => {
    expect(lineOf('logic-chip', 'Family', fitted, hand)).toBe(said);
  });

  // The TTL data books, from memory: an LS output drives five 7400 inputs, a 7400 output twenty LS inputs.
  it('counts the loads as the data books do', () => {
    const says = (...pair: Pair): string => judge('logic-chip', { Family: pair }).lines[1]?.says ?? '';
    expect(says('74', '74LS')).toContain('drives 5 old inputs');
    expect(says('74LS', '74')).toContain('drives 5 of its inputs');
    expect(says('74LS', '74HC')).toContain('2.7 V for a high, and it needs 3.5 V');
  });

  it('takes another number for another chip', () => {
    expect(lineOf('logic-chip', 'Number', '245', '244')).toBe('does not fit');
    expect(lineOf('logic-chip', 'Number', '00', '00')).toBe('fits');
  });
});

describe('a fuse', () => {
  const same: Readonly<Record<string, Pair>> = {
    Where: ['', 'low-voltage side'],
    Current: ['0.2', '200m'],
    Speed: ['T', 'T'],
    Breaking: ['low (L)', 'low (L)'],
    Voltage: ['250', '250'],
    Size: ['5 × 20 mm', '5 × 20 mm'],
    System: ['IEC', 'IEC'],
    Why: ['', 'found'],
  };

  it('fits only where everything is the same and the reason is known; on the mains side with care at most', () => {
    expect(judge('fuse', same).fit).toBe('fits');
    expect(judge('fuse', { ...same, Where: ['', 'mains side'] }).fit).toBe('fits with care');
    const others: readonly (readonly [string, Pair])[] = [
      ['Current', ['0.2', '0.25']],
      ['Current', ['0.2', '0.16']],
      ['Speed', ['T', 'F']],
      ['Breaking', ['low (L)', 'high (H)']],
      ['Voltage', ['250', '125']],
      ['Size', ['5 × 20 mm', '6.3 × 32 mm']],
      ['System', ['IEC', 'UL']],
      ['Why', ['', 'not found']],
    ];
    for (const [name, pair] of others) expect(judge('fuse', { ...same, [name]: pair }).fit).toBe('does not fit');
  });
});

describe('transistors, diodes and regulators', () => {
  // 2N3904 and BC547A sheets, read: 40 and 45 V, 0.2 and 0.1 A, and E-B-C against C-B-E.
  it('does not take a 40 V transistor for a 45 V one, nor another order of legs', () => {
    expect(lineOf('transistor', 'Collector volts', '45', '40')).toBe('does not fit');
    expect(lineOf('transistor', 'Collector current', '0.1', '200m')).toBe('fits');
    expect(lineOf('transistor', 'Order', '', 'different')).toBe('does not fit');
    expect(lineOf('transistor', 'Polarity', 'NPN', 'PNP')).toBe('does not fit');
  });

  // 1N5817 and 1N4001 sheets, read: 20 V against 50 V.
  it('takes a fast diode for a plain one, a Schottky with care and never a plain one for a fast one', () => {
    expect(lineOf('rectifier', 'Kind', 'plain', 'fast')).toBe('fits');
    expect(lineOf('rectifier', 'Kind', 'plain', 'Schottky')).toBe('fits with care');
    expect(lineOf('rectifier', 'Kind', 'fast', 'plain')).toBe('does not fit');
    expect(lineOf('rectifier', 'Reverse', '50', '20')).toBe('does not fit');
  });

  it('takes no other sign, voltage or less current for a regulator', () => {
    expect(lineOf('regulator', 'Sign', 'positive', 'negative')).toBe('does not fit');
    expect(lineOf('regulator', 'Output', '5', '5.2')).toBe('does not fit');
    expect(lineOf('regulator', 'Current', '1', '0.5')).toBe('does not fit');
  });
});

describe('the table', () => {
  it('has the lines of every role that a cause links to', () => {
    const { 'power-transistor': _own, ...rest } = partCriteria;
    expect(new Set(Object.keys(rest))).toEqual(comparedRoles);
    for (const role of comparedRoles) expect(substituteRoles).toHaveProperty(role);
  });

  it('has the roles of causes, a sentence and a basis on every line, and no choice twice', () => {
    for (const [kind, criteria] of Object.entries(partCriteria)) {
      expect([...Object.keys(substituteRoles), 'power-transistor']).toContain(kind);
      for (const { name, why, basis, choices } of criteria) {
        expect(why, name).toMatch(/^[A-Z0-9].*\.$/u);
        expect(basis, name).not.toBe('');
        expect(new Set(choices).size).toBe(choices.length);
      }
    }
  });

  it('never throws: 2,000 rows of any texts', () => {
    const choices = Object.values(partCriteria).flatMap((criteria) => criteria.flatMap((one) => one.choices));
    const word = fc.oneof(
      fc.string(),
      fc.constantFrom(...choices),
      fc.double({ noNaN: true, noDefaultInfinity: true }).map(String),
    );
    fc.assert(
      fc.property(
        fc.oneof(fc.constantFrom(...Object.keys(partCriteria)), fc.string()),
        fc.array(fc.tuple(word, word)),
        (kind, pairs) => {
          for (const { says } of judgePart(kind, pairs).lines) expect(says).not.toMatch(/undefined|NaN|Infinity/u);
        },
      ),
      { numRuns: 2000 },
    );
  });
});

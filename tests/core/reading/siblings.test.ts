import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { parseReading } from '#core/quantity/parse-reading.ts';
import type { Reading } from '#core/quantity/reading.ts';
import { compareSiblings, describeSiblings, proposeOutcomes, type SiblingComparison } from '#core/reading/siblings.ts';
import { makeInstrument } from '../../support/reading/make-instrument.ts';

const ohms = { quantity: 'resistance', unit: 'Ω' } as const;
/** ±(1 % + 2 counts of 0.1 Ω) */
const meter = makeInstrument({ percent: 1, counts: 2, resolution: 0.1, to: 600 }, ohms);

function compare(texts: readonly string[]): SiblingComparison {
  const readings = texts.map((text): Reading => {
    const parsed = parseReading(text, ohms);
    if (parsed.kind === 'problem') throw new Error(parsed.problem.message);
    return parsed.reading;
  });
  return compareSiblings(readings, ohms, meter);
}

describe('eight neighbours', () => {
  test('one that stands out is named by its place', () => {
    const found = compare(['47.1', '46.9', '47.0', '47.3', '12.4', '47.2', '46.8', '47.0']);
    expect(found).toMatchObject({ kind: 'odd', odd: [4], method: 'modified-z-score' });
    expect(found.median).toBeCloseTo(47, 10);
  });

  test('equal displays and one next digit are alike: the meter cannot tell', () => {
    expect(compare(['47.0', '47.0', '47.0', '47.0', '47.1', '47.0', '47.0', '47.0']).kind).toBe('alike');
  });

  test('two that stand out are both named', () => {
    expect(compare(['47.1', '46.9', '90.0', '47.3', '12.4', '47.2', '46.8', '47.0']).odd).toEqual([2, 4]);
  });

  test('an open one among numbers is the odd one', () => {
    expect(compare(['47.1', 'OL', '47.0', '47.3'])).toMatchObject({ kind: 'odd', odd: [1], method: 'over-range' });
    expect(compare(['OL', 'OL', '47.0'])).toMatchObject({ kind: 'odd', odd: [2] });
    expect(compare(['OL', '47.0']).kind).toBe('differ');
    expect(compare(['OL', 'OL', 'OL']).kind).toBe('alike');
  });
});

// By hand: difference 0.5 Ω, gain 1 % of it 0.005, counts 0.2 twice, half digits 0.05 twice:
// √(0.005² + 2 × 0.2² + 2 × 0.05²)/√3 = 0.1684 Ω, times 1.96 is 0.330 Ω. With the gain error of 470 Ω it would be 3.8 Ω each.
describe('few neighbours, one meter, its gain error cancelled', () => {
  test('two channels half an ohm apart differ, though each is only good to 4.9 Ω', () => {
    expect(compare(['470.0', '470.5']).kind).toBe('differ');
    expect(compare(['470.0', '470.5']).uncertainty).toBeCloseTo(0.1683, 4);
  });

  test('two a third of an ohm apart are alike', () => {
    expect(compare(['470.0', '470.3']).kind).toBe('alike');
  });

  test('of three, the one that two others outvote is odd', () => {
    expect(compare(['470.0', '470.2', '480.0'])).toMatchObject({ kind: 'odd', odd: [2], method: 'instrument-doubt' });
  });

  test('of three all apart nobody can say which is wrong', () => {
    expect(compare(['470.0', '475.0', '480.0'])).toMatchObject({ kind: 'differ', odd: [] });
  });

  // Dixon's Q for three values is 0.970 at 95 %: (500 − 471)/(500 − 470) = 0.967 is not enough, (520 − 471)/(520 − 470) = 0.98 is.
  test('of three with two nearly alike, Dixon’s Q decides', () => {
    expect(compare(['470.0', '471.0', '500.0']).kind).toBe('differ');
    expect(compare(['470.0', '471.0', '520.0'])).toMatchObject({ kind: 'odd', odd: [2] });
  });

  test('two against two has no odd one', () => {
    expect(compare(['470.0', '470.1', '480.0', '480.1']).kind).toBe('differ');
  });
});

test('one reading, or none, is too few', () => {
  expect(compare(['47.0']).kind).toBe('too-few');
  expect(compare([]).kind).toBe('too-few');
});

test('the order of the neighbours changes no verdict', () => {
  const texts = fc.array(
    fc.integer({ min: 1, max: 5999 }).map((tenths) => (tenths / 10).toFixed(1)),
    { minLength: 2, maxLength: 9 },
  );
  fc.assert(
    fc.property(texts, fc.nat(), (readings, turn) => {
      const by = turn % readings.length;
      const turned = [...readings.slice(by), ...readings.slice(0, by)];
      const straight = compare(readings);
      const other = compare(turned);
      expect(other.kind).toBe(straight.kind);
      const places = other.odd.map((place) => (place + by) % readings.length).toSorted((a, b) => a - b);
      expect(places).toEqual(straight.odd);
    }),
    { numRuns: 500 },
  );
});

function compared(change: Partial<SiblingComparison>): SiblingComparison {
  return { kind: 'alike', odd: [], scores: [], median: 5, uncertainty: 0.01, method: 'modified-z-score', ...change };
}

describe('a comparison of neighbours in words', () => {
  it('names the odd one by its place among all, and says how sure', () => {
    const odd = compared({ kind: 'odd', odd: [2], scores: [0, 0.1, 40, 0] });

    expect(describeSiblings(odd, [4], 0)).toBe('Number 5 is the odd one out, clearly.');
    expect(describeSiblings({ ...odd, scores: [0, 0.1, 4, 0] }, [4], 2)).toBe(
      'Number 5 is the odd one out, just. 2 are not read yet.',
    );
  });

  it('names nobody where they are alike or differ without one that stands out', () => {
    expect(describeSiblings(compared({}), [], 0)).toMatch(/^All alike/u);
    expect(describeSiblings(compared({ kind: 'differ' }), [], 1)).toMatch(/cannot say which.*One is not read yet/u);
    expect(describeSiblings(compared({ kind: 'too-few' }), [], 7)).toMatch(/^Too few/u);
  });
});

describe('the outcome a comparison points to', () => {
  // Words of shipped checks: neg-rail-missing/at-every-chip, cpu-no-activity/address-moving, keyboard-dead-row/trace-ohms.
  it.each([
    ['odd', ['odd-one', 'all-low', 'all-alike'], ['odd-one']],
    ['odd', ['all-move', 'one-still', 'none-move'], ['one-still']],
    ['alike', ['odd-one', 'all-alike'], ['all-alike']],
    ['alike', ['odd-one', 'all-low', 'all-alike'], []],
    ['differ', ['odd-one', 'all-alike'], []],
    ['too-few', ['odd-one', 'all-alike'], []],
  ] as const)('%s among %o is %o', (kind, words, expected) => {
    expect(proposeOutcomes(kind, words)).toEqual(expected);
  });
});

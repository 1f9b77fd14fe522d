import { describe, expect, it } from 'vitest';
import type { SiblingComparison } from '#core/reading/compare-siblings.ts';
import { describeSiblings, proposeOutcomes } from '#core/walk/describe-siblings.ts';

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

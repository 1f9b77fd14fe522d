import { describe, expect, test } from 'vitest';
import { explainCheck, listOpenCauses } from '#core/diagnosis/tree/assess-tree.ts';
import type { DiagnosisProblem } from '#core/diagnosis/problem.ts';
import { makeCause, makeCheck, makeHandOver, makeTree } from '../../../arbitraries/make-tree.ts';

const tree = makeTree([
  makeCheck('lamp', { yes: 'fuse', no: 'lead', dim: 'plug' }),
  makeCause('fuse', { title: 'Fuse open' }),
  makeCause('lead', { title: 'Lead broken' }),
  makeCause('plug', { title: 'Plug worn' }),
  makeHandOver('leave-it', { title: 'Leave it' }),
]);

/** One check with the rows given, by cause in the order of the tree, and one for what is not listed. */
function explain(rows: readonly (readonly number[])[], probabilities: readonly number[]): string {
  const ids = ['fuse', 'lead', 'plug', 'not-listed'];
  const problem: DiagnosisProblem = {
    kind: 'problem',
    causes: ids.map((id) => ({ id, weight: 1, repairMinutes: 10, repairSuccess: 1, repairSetup: [] })),
    checks: [{ id: 'lamp', minutes: 1, setup: [], outcomes: ['yes', 'no', 'dim'], likelihood: rows }],
    setups: [],
    goal: 'repair',
    proveMinutes: 0,
    giveUpMinutes: 240,
    evidence: [],
  };
  return explainCheck({ tree, problem }, 'lamp', Float64Array.from(probabilities));
}

// Differences of rows by hand: half the sum of |a − b|.
const yes = [0.9, 0.05, 0.05];
const no = [0.05, 0.9, 0.05];
const even = [0.34, 0.33, 0.33];

describe('why a check is suggested', () => {
  test('it separates the two likeliest causes whose rows differ by at least a half: (0.85 + 0.85) / 2 = 0.85', () => {
    expect(explain([yes, no, even, even], [0.3, 0.4, 0.2, 0.1])).toBe('Separates “Lead broken” from “Fuse open”.');
  });

  test('a cause of less than 5 % is not named as one of the two: the likely one is told from the rest', () => {
    expect(explain([yes, no, no, even], [0.9, 0.04, 0.04, 0.02])).toBe('Tells most about “Fuse open”.');
  });

  test('rows that differ by less than a half separate nothing: 0.9 and 0.45 at yes differ by 0.45', () => {
    const half = [0.45, 0.5, 0.05];
    expect(explain([yes, half, yes, yes], [0.45, 0.45, 0.05, 0.05])).toBe('Rules out some of what is less likely.');
    // 0.9 and 0.4: exactly a half.
    expect(explain([yes, [0.4, 0.55, 0.05], yes, yes], [0.45, 0.45, 0.05, 0.05])).toBe(
      'Separates “Fuse open” from “Lead broken”.',
    );
  });

  test('what is not listed is never named', () => {
    expect(explain([yes, yes, yes, no], [0.5, 0.2, 0, 0.3])).not.toMatch(/not listed/u);
  });

  test('equal rows tell nothing: it only has to come first', () => {
    expect(explain([yes, yes, yes, yes], [0.4, 0.4, 0.1, 0.1])).toBe('Must come before what tells most.');
  });
});

describe('how many causes are open', () => {
  test('counts the causes of the tree from one in two hundred on, and nothing else', () => {
    const words = 'possible' as const;
    const assessed = [
      { id: 'leave-it', title: 'Leave it', probability: 0.5, words },
      { id: 'fuse', title: 'Fuse open', probability: 0.3, words },
      { id: 'not-listed', title: 'Something not listed here', probability: 0.19, words },
      { id: 'lead', title: 'Lead broken', probability: 0.005, words },
      { id: 'plug', title: 'Plug worn', probability: 0.0049, words },
    ];
    expect(listOpenCauses(tree, assessed).map(({ id }) => id)).toEqual(['fuse', 'lead']);
  });
});

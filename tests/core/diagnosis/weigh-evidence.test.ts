import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { DiagnosisProblem, Evidence } from '#core/diagnosis/problem.ts';
import { weighEvidence } from '#core/diagnosis/evidence.ts';
import { generateProblem } from '../../support/diagnosis/generate-problem.ts';
import { readSound } from '../../support/diagnosis/make-problem.ts';

const problems = fc
  .record({
    seed: fc.integer({ min: 1, max: 1_000_000 }),
    causeCount: fc.integer({ min: 1, max: 8 }),
    checkCount: fc.integer({ min: 1, max: 8 }),
  })
  .map(({ seed, ...shape }) => generateProblem(seed, { ...shape, setupCount: 0, goal: 'repair', isCrisp: false }));

/** Evidence about different checks and causes of a problem, each in doubt or beyond it. */
const answered = problems.chain((problem) =>
  fc
    .tuple(
      fc.subarray([...problem.checks]),
      fc.subarray([...problem.causes]),
      fc.array(fc.double({ min: 0.01, max: 1, noNaN: true }), { minLength: 24, maxLength: 24 }),
    )
    .map(
      ([checks, repaired, numbers]): {
        readonly problem: DiagnosisProblem;
        readonly evidence: readonly Evidence[];
      } => ({
        problem,
        evidence: [
          ...checks.map((check, index): Evidence => {
            const likelihood = check.outcomes.map((_, outcome) => numbers[3 * index + outcome] ?? 1);
            if (index % 2 === 1) return { kind: 'reading', check: check.id, likelihood };
            return { kind: 'outcome', check: check.id, outcome: check.outcomes[index % check.outcomes.length] ?? '' };
          }),
          ...repaired.map((cause): Evidence => ({ kind: 'repaired', cause: cause.id })),
        ],
      }),
    ),
);

function weigh(problem: DiagnosisProblem, evidence: readonly Evidence[]): readonly number[] {
  const posterior = weighEvidence(problem, evidence);
  if (posterior.kind !== 'posterior') throw new Error(posterior.contradiction.text);
  return Array.from(posterior.probabilities);
}

/** Bayes' rule as it is written: prior times every likelihood, divided by the sum. */
function enumerate(problem: DiagnosisProblem, evidence: readonly Evidence[]): readonly number[] {
  const products = problem.causes.map((cause, index) =>
    evidence.reduce((product, item) => {
      if (item.kind === 'repaired') return item.cause === cause.id ? product * (1 - cause.repairSuccess) : product;
      const check = problem.checks.find((candidate) => candidate.id === item.check);
      const row = check?.likelihood[index] ?? [];
      if (item.kind === 'outcome') return product * (row[check?.outcomes.indexOf(item.outcome) ?? -1] ?? 0);
      return (
        product * row.reduce((sum, probability, outcome) => sum + probability * (item.likelihood[outcome] ?? 0), 0)
      );
    }, cause.weight),
  );
  const sum = products.reduce((total, product) => total + product, 0);
  return products.map((product) => product / sum);
}

const agree = (first: readonly number[], second: readonly number[], within: number = 1e-12): void => {
  expect(first).toHaveLength(second.length);
  for (const [index, value] of first.entries())
    expect(Math.abs(value - (second[index] ?? Number.NaN))).toBeLessThan(within);
};

describe('the posterior', () => {
  test('is what direct enumeration gives, to 1e-12, and sums to one', () => {
    fc.assert(
      fc.property(answered, ({ problem, evidence }) => {
        const posterior = weigh(problem, evidence);
        agree(posterior, enumerate(problem, evidence));
        expect(posterior.reduce((sum, probability) => sum + probability, 0)).toBeCloseTo(1, 12);
      }),
    );
  });

  test('ignores the order of evidence to the last bit, and saying the same repair twice', () => {
    fc.assert(
      fc.property(answered, ({ problem, evidence }) => {
        expect(weigh(problem, evidence.toReversed())).toEqual(weigh(problem, evidence));
        expect(weigh(problem, [...evidence, ...evidence.filter((item) => item.kind === 'repaired')])).toEqual(
          weigh(problem, evidence),
        );
      }),
    );
  });

  test('takes likelihoods on any scale, and a one beside zeros as an outcome beyond doubt', () => {
    fc.assert(
      fc.property(answered, fc.constantFrom(1e-12, 0.5, 7, 1e9), ({ problem, evidence }, scale) => {
        const scaled = evidence.map((item): Evidence => {
          if (item.kind === 'reading') return { ...item, likelihood: item.likelihood.map((value) => value * scale) };
          if (item.kind === 'repaired') return item;
          const outcomes = problem.checks.find((check) => check.id === item.check)?.outcomes ?? [];
          return {
            kind: 'reading',
            check: item.check,
            likelihood: outcomes.map((outcome) => (outcome === item.outcome ? scale : 0)),
          };
        });
        agree(weigh(problem, scaled), weigh(problem, evidence));
      }),
    );
  });

  test('is not moved by a reading that fits every outcome alike', () => {
    fc.assert(
      fc.property(answered, ({ problem, evidence }) => {
        const open = problem.checks.find(
          (check) => !evidence.some((item) => item.kind !== 'repaired' && item.check === check.id),
        );
        if (open === undefined) return;
        const flat: Evidence = { kind: 'reading', check: open.id, likelihood: open.outcomes.map(() => 0.3) };
        agree(weigh(problem, [...evidence, flat]), weigh(problem, evidence));
      }),
    );
  });

  test('gives two halves of a cause together what the whole had', () => {
    fc.assert(
      fc.property(answered, ({ problem, evidence }) => {
        const [first, ...rest] = problem.causes;
        if (first === undefined || evidence.some((item) => item.kind === 'repaired')) return;
        const half = { ...first, weight: first.weight / 2 };
        const split: DiagnosisProblem = {
          ...problem,
          causes: [half, { ...half, id: 'other-half' }, ...rest],
          checks: problem.checks.map((check) => ({
            ...check,
            likelihood: [check.likelihood[0] ?? [], ...check.likelihood],
          })),
        };
        const [one = 0, other = 0, ...others] = weigh(split, evidence);
        agree([one + other, ...others], weigh(problem, evidence));
      }),
    );
  });

  test('holds through products far below the smallest number', () => {
    const rows = [
      [1e-200, 1 - 1e-200],
      [2e-200, 1 - 2e-200],
    ];
    const checks = Array.from({ length: 6 }, (_, index) => ({
      id: `c${index}`,
      minutes: 1,
      outcomes: ['x', 'y'],
      likelihood: rows,
    }));
    const problem = readSound({
      goal: 'isolate',
      causes: [
        { id: 'a', weight: 1 },
        { id: 'b', weight: 1 },
      ],
      checks,
    });
    agree(
      weigh(
        problem,
        checks.map((check) => ({ kind: 'outcome', check: check.id, outcome: 'x' })),
      ),
      [1 / 65, 64 / 65],
    );
  });

  test('joins two readings of one check outcome by outcome: they are one measurement', () => {
    const problem = readSound({
      goal: 'isolate',
      causes: [
        { id: 'a', weight: 1 },
        { id: 'b', weight: 1 },
      ],
      checks: [
        {
          id: 'c',
          minutes: 1,
          outcomes: ['x', 'y'],
          likelihood: [
            [0.8, 0.2],
            [0.3, 0.7],
          ],
        },
      ],
    });
    const hard: Evidence = { kind: 'outcome', check: 'c', outcome: 'x' };
    agree(weigh(problem, [hard, hard]), [8 / 11, 3 / 11]);
    // 0.6 × 0.5 and 0.4 × 0.5 for x and y: 0.3 × 0.8 + 0.2 × 0.2 against 0.3 × 0.3 + 0.2 × 0.7.
    const readings: readonly Evidence[] = [
      { kind: 'reading', check: 'c', likelihood: [0.6, 0.4] },
      { kind: 'reading', check: 'c', likelihood: [0.5, 0.5] },
    ];
    agree(weigh(problem, readings), [0.28 / 0.51, 0.23 / 0.51]);
  });
});

describe('evidence that cannot be', () => {
  const crisp = (id: string, row: readonly number[]) => ({
    id,
    minutes: 1,
    outcomes: ['bad', 'good'],
    likelihood: row.map((bad) => [bad, 1 - bad]),
  });
  const problem = readSound({
    goal: 'repair',
    causes: [
      { id: 'a', weight: 5, repairMinutes: 1 },
      { id: 'b', weight: 3, repairMinutes: 1 },
      { id: 'c', weight: 1, repairMinutes: 1 },
    ],
    checks: [crisp('p', [1, 0, 0]), crisp('q', [1, 1, 0]), crisp('r', [0.5, 0.5, 0.5]), crisp('never', [0, 0, 0])],
  });
  const outcome = (check: string, value: string): Evidence => ({ kind: 'outcome', check, outcome: value });
  const contradictionOf = (...evidence: readonly Evidence[]) => {
    const posterior = weighEvidence(problem, evidence);
    if (posterior.kind !== 'contradiction') throw new Error('this evidence can be');
    return posterior.contradiction;
  };

  test('names the two answers that exclude each other, and not the one beside them', () => {
    const { entries, doubtful, text } = contradictionOf(outcome('p', 'bad'), outcome('r', 'bad'), outcome('q', 'good'));
    expect(entries).toEqual([0, 2]);
    // Without "q good" cause a (weight 5) is left, without "p bad" only c (weight 1): q is the one to doubt.
    expect(doubtful).toBe(2);
    expect(text).toContain('`p` = `bad` and `q` = `good`');
    expect(text).toContain('first `q` = `good`');
  });

  test('names the single answer that fits no cause, and two answers to one check', () => {
    expect(contradictionOf(outcome('p', 'bad'), outcome('never', 'bad')).entries).toEqual([1]);
    expect(contradictionOf(outcome('p', 'bad'), outcome('p', 'good')).entries).toEqual([0, 1]);
  });

  test('names a repair that did not cure beside the answer that leaves nothing else', () => {
    const { entries, text } = contradictionOf({ kind: 'repaired', cause: 'a' }, outcome('p', 'bad'));
    expect(entries).toEqual([0, 1]);
    expect(text).toContain('`a` repaired without a cure');
  });

  test('names three that only together exclude every cause', () => {
    const repaired = ['a', 'b', 'c'].map((cause): Evidence => ({ kind: 'repaired', cause }));
    expect(contradictionOf(...repaired).entries).toEqual([0, 1, 2]);
  });
});

import { describe, expect, test } from 'vitest';
import type { Evidence } from '#core/diagnosis/problem.ts';
import { weighEvidence } from '#core/diagnosis/evidence.ts';
import { readSound } from '../support/diagnosis/make-problem.ts';

interface TestedCheck {
  readonly id: string;
  readonly outcomes: readonly string[];
  readonly rows: readonly (readonly number[])[];
}

function weigh(
  weights: readonly number[],
  checks: readonly TestedCheck[],
  evidence: readonly Evidence[],
): readonly number[] {
  const problem = readSound({
    goal: 'isolate',
    causes: weights.map((weight, index) => ({ id: `c${index}`, weight })),
    checks: checks.map(({ id, outcomes, rows }) => ({ id, minutes: 1, outcomes, likelihood: rows })),
  });
  const posterior = weighEvidence(problem, evidence);
  if (posterior.kind !== 'posterior') throw new Error(posterior.contradiction.text);
  return Array.from(posterior.probabilities);
}

describe('evidence', () => {
  // Pearl, Probabilistic Reasoning in Intelligent Systems, 1988, chapter 2, from memory: burglary 1e-4, alarm 0.95 and 0.01,
  // a neighbour's testimony worth 4 to 1: P(burglary) = 0.00037. By hand: e-4 × (4 × 0.95 + 0.05) / (that + 0.9999 × (4 × 0.01 + 0.99)).
  test("Pearl's neighbour, worth 4 to 1 for an alarm, leaves the burglary at 0.00037", () => {
    const alarm = {
      id: 'alarm',
      outcomes: ['rings', 'silent'],
      rows: [
        [0.95, 0.05],
        [0.01, 0.99],
      ],
    };
    const [burglary] = weigh([1e-4, 1 - 1e-4], [alarm], [{ kind: 'reading', check: 'alarm', likelihood: [4, 1] }]);
    expect(burglary).toBeCloseTo(0.00037, 5);
    expect(burglary).toBeCloseTo((1e-4 * 3.85) / (1e-4 * 3.85 + 0.9999 * 1.03), 15);
  });

  // Jeffrey, The Logic of Decision, from memory: a cloth seen by candlelight, green .70, blue .25, violet .05: P(sold) = .42.
  // Before: green and sold .12, blue and sold .12, violet and sold .32; unsold .18, .18, .08. Virtual evidence gives Jeffrey's answer
  // when the ratios of new to old probability are its likelihoods (Chan and Darwiche 2005).
  test("Jeffrey's cloth by candlelight is sold with 0.42, from likelihoods that are ratios of new to old", () => {
    const colour = {
      id: 'colour',
      outcomes: ['green', 'blue', 'violet'],
      rows: [
        [0.12 / 0.56, 0.12 / 0.56, 0.32 / 0.56],
        [0.18 / 0.44, 0.18 / 0.44, 0.08 / 0.44],
      ],
    };
    const [sold] = weigh(
      [0.56, 0.44],
      [colour],
      [{ kind: 'reading', check: 'colour', likelihood: [0.7 / 0.3, 0.25 / 0.3, 0.05 / 0.4] }],
    );
    expect(sold).toBeCloseTo(0.42, 12);
  });

  // Derived, and computed twice in the research: a 5 V rail within 5 % reads 4.72 V with u = 0.04 V.
  test('a reading near its limit moves the causes as virtual evidence does, and not as the other rule or the nearest box would', () => {
    const rail = {
      id: 'rail',
      outcomes: ['low', 'in', 'high'],
      rows: [
        [0.85, 0.1, 0.05],
        [0.05, 0.94, 0.01],
        [0.3, 0.68, 0.02],
      ],
    };
    const weights = [20, 60, 20];
    const low = 0.773372647;
    const doubtful = weigh(weights, [rail], [{ kind: 'reading', check: 'rail', likelihood: [low, 1 - low, 0] }]);
    for (const [index, expected] of [0.37339, 0.4146, 0.21201].entries())
      expect(doubtful[index]).toBeCloseTo(expected, 5);
    const hard = weigh(weights, [rail], [{ kind: 'outcome', check: 'rail', outcome: 'low' }]);
    for (const [index, expected] of [0.654, 0.115, 0.231].entries()) expect(hard[index]).toBeCloseTo(expected, 3);
    // Jeffrey's rule would force P(low) to be what the reading alone says, and forget what is known of the causes.
    const jeffrey = [0, 1, 2].map((cause) =>
      rail.outcomes.reduce((sum, outcome, index) => {
        const given = weigh(weights, [rail], [{ kind: 'outcome', check: 'rail', outcome }]);
        return sum + ([low, 1 - low, 0][index] ?? 0) * (given[cause] ?? 0);
      }, 0),
    );
    for (const [index, expected] of [0.51196, 0.26676, 0.22128].entries())
      expect(jeffrey[index]).toBeCloseTo(expected, 5);
  });

  test('two readings give the same posterior in either order, to the last bit', () => {
    const rows = [
      [0.9, 0.1],
      [0.2, 0.8],
      [0.5, 0.5],
    ];
    const checks = [
      { id: 'a', outcomes: ['x', 'y'], rows },
      { id: 'b', outcomes: ['x', 'y'], rows: rows.toReversed() },
    ];
    const first: Evidence = { kind: 'reading', check: 'a', likelihood: [0.7, 0.3] };
    const second: Evidence = { kind: 'reading', check: 'b', likelihood: [0.4, 0.6] };
    expect(weigh([1, 2, 3], checks, [first, second])).toEqual(weigh([1, 2, 3], checks, [second, first]));
  });
});

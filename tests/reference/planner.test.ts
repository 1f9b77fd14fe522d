import { describe, expect, test } from 'vitest';
import { planPath } from '#core/diagnosis/plan-path.ts';
import { type Plan, planProblem } from '#core/diagnosis/plan-problem.ts';
import { readProblem } from '#core/diagnosis/read-problem.ts';

/** Reads and plans a bare problem, which must be sound. */
function plan(value: object): Plan {
  const read = readProblem(value);
  if (read.kind !== 'read' || read.problem.kind !== 'problem') throw new Error(JSON.stringify(read));
  const result = planProblem(read.problem);
  if (result.kind !== 'plan') throw new Error(JSON.stringify(result));
  return result.plan;
}

/** Expected probes of a signal path with the given weights. */
function probesOf(weights: readonly number[], minutes: readonly number[] = weights.slice(1).map(() => 1)) {
  const read = readProblem({
    stages: weights.map((weight, place) => ({ id: `s${place}`, weight })),
    probes: minutes.map((each) => ({ minutes: each })),
  });
  if (read.kind !== 'read' || read.problem.kind !== 'path') throw new Error(JSON.stringify(read));
  const result = planPath(read.problem);
  if (result.kind !== 'plan') throw new Error(result.text);
  return result.plan;
}

/** A test of 0 and 1: P(0) and P(1) for each state. */
function crisp(column: readonly number[]): readonly (readonly number[])[] {
  return column.map((bit) => (bit === 0 ? [1, 0] : [0, 1]));
}

describe('test sequencing', () => {
  // Pattipati and Alexandridis, IEEE Trans. SMC 20(4), 1990, 872-887: optimum 2.18. Matrix and figure from memory.
  const priors = [0.7, 0.01, 0.02, 0.1, 0.05, 0.12];
  const columns = {
    t1: [0, 0, 0, 1, 1, 1],
    t2: [0, 1, 0, 0, 1, 1],
    t3: [0, 0, 1, 0, 0, 1],
    t4: [0, 0, 1, 1, 0, 1],
    t5: [0, 1, 0, 1, 0, 0],
  };

  test('reaches the published optimum of the six-state matrix, where a greedy order needs 2.86', () => {
    const found = plan({
      causes: priors.map((weight, state) => ({ id: `s${state}`, weight })),
      checks: Object.entries(columns).map(([id, column]) => ({
        id,
        minutes: 1,
        outcomes: ['0', '1'],
        likelihood: crisp(column),
      })),
      goal: 'isolate',
    });
    expect(found.exact).toBe(true);
    expect(found.expectedMinutes).toBeCloseTo(2.18, 9);
    expect(found.next).toEqual({ check: 't2' });
  });
});

describe('signal paths', () => {
  test('finds the alphabetic code of Gilbert and Moore for 27 stages: 4.1978', () => {
    // Gilbert and Moore, Bell System Technical Journal 38, 1959, 933-967, from memory: space, A to Z.
    const letters = [
      0.1859, 0.0642, 0.0127, 0.0218, 0.0317, 0.1031, 0.0208, 0.0152, 0.0467, 0.0575, 0.0008, 0.0049, 0.0321, 0.0198,
      0.0574, 0.0632, 0.0152, 0.0008, 0.0484, 0.0514, 0.0796, 0.0228, 0.0083, 0.0175, 0.0013, 0.0164, 0.0005,
    ];
    expect(probesOf(letters).expectedMinutes).toBeCloseTo(4.1978, 4);
  });

  // Half-split of n equal stages: the average depth of a balanced tree, counted by hand from ⌈log2 n⌉ and ⌊log2 n⌋.
  test.each([
    [5, 2.4],
    [6, 8 / 3],
    [7, 20 / 7],
    [8, 3],
    [9, 29 / 9],
    [10, 3.4],
    [16, 4],
    [64, 6],
  ])('halves %i equal stages in %f probes', (stages, probes) => {
    expect(probesOf(Array.from({ length: stages }, () => 1)).expectedMinutes).toBeCloseTo(probes, 9);
  });

  test('halves the likelihood and not the stages: weights 50 and five times 10 begin after the first stage', () => {
    const found = probesOf([50, 10, 10, 10, 10, 10]);
    expect(found.nextProbe).toBe(0);
    expect(found.expectedMinutes).toBeCloseTo(2.2, 9);
  });
});

describe('posterior', () => {
  const posteriorOf = (weights: readonly number[], likelihood: readonly number[]): number =>
    plan({
      causes: weights.map((weight, place) => ({ id: `c${place}`, weight })),
      checks: [
        { id: 'witness', minutes: 1, outcomes: ['yes', 'no'], likelihood: likelihood.map((yes) => [yes, 1 - yes]) },
      ],
      goal: 'isolate',
      evidence: [{ check: 'witness', outcome: 'yes' }],
    }).posterior[0]?.probability ?? Number.NaN;

  test('answers the taxi problem with 0.41', () => {
    // Tversky and Kahneman's taxi problem, from memory: 15 % blue, witness right in 80 %: 12/29.
    expect(posteriorOf([15, 85], [0.8, 0.2])).toBeCloseTo(12 / 29, 12);
  });

  test('answers the mammography problem with 7.8 %', () => {
    // Eddy 1982 as told by Gigerenzer, from memory: 1 %, 80 %, 9.6 %: 0.008 / 0.10304.
    expect(posteriorOf([1, 99], [0.8, 0.096])).toBeCloseTo(0.008 / 0.10304, 12);
  });
});

describe('repairs alone', () => {
  test('are tried by likelihood over cost: 11 minutes in the order 3, 2, 1', () => {
    // Likelihoods .5 .3 .2, swaps of 10, 5 and 2 minutes: 2 + .8·5 + .5·10 = 11, the p/c rule (Simon and Kadane 1975, from memory).
    const found = plan({
      causes: [
        { id: 'a', weight: 0.5, repairMinutes: 10 },
        { id: 'b', weight: 0.3, repairMinutes: 5 },
        { id: 'c', weight: 0.2, repairMinutes: 2 },
      ],
      checks: [],
      goal: 'repair',
    });
    expect(found.expectedMinutes).toBeCloseTo(11, 9);
    expect(found.next).toEqual({ repair: 'c' });
  });
});

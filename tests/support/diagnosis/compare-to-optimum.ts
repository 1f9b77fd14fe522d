import type { Effort } from '#core/diagnosis/choose-action.ts';
import { planProblem } from '#core/diagnosis/plan-problem.ts';
import { findOptimum } from './exhaustive-plan.ts';
import { generateProblem, type ProblemShape } from './generate-problem.ts';

export interface RatioSummary {
  readonly count: number;
  readonly least: number;
  readonly mean: number;
  readonly p95: number;
  readonly worst: number;
  /** How many are above 1.03. */
  readonly aboveThreePercent: number;
  /** Problems whose policy reached too many states to be priced exactly. */
  readonly estimated: number;
  readonly planMilliseconds: number;
  readonly optimumMilliseconds: number;
}

/** Expected minutes of the engine's policy over the best possible, for problems of seeds 1 to `count`. */
export function compareToOptimum(
  count: number,
  shapeOf: (seed: number) => ProblemShape,
  effort?: Effort,
): RatioSummary {
  const ratios: number[] = [];
  let estimated = 0;
  let planMilliseconds = 0;
  let optimumMilliseconds = 0;
  for (let seed = 1; seed <= count; seed++) {
    const problem = generateProblem(seed, shapeOf(seed));
    const before = performance.now();
    const result = planProblem(problem, effort === undefined ? {} : { effort });
    const between = performance.now();
    const optimum = findOptimum(problem);
    optimumMilliseconds += performance.now() - between;
    planMilliseconds += between - before;
    if (result.kind !== 'plan') throw new Error(`seed ${seed}: ${result.contradiction.text}`);
    if (!result.plan.exact) estimated++;
    ratios.push(result.plan.expectedMinutes / optimum);
  }
  ratios.sort((first, second) => first - second);
  return {
    count,
    least: ratios[0] ?? Number.NaN,
    mean: ratios.reduce((sum, ratio) => sum + ratio, 0) / count,
    p95: ratios[Math.ceil(0.95 * count) - 1] ?? Number.NaN,
    worst: ratios.at(-1) ?? Number.NaN,
    aboveThreePercent: ratios.filter((ratio) => ratio > 1.03).length,
    estimated,
    planMilliseconds: planMilliseconds / count,
    optimumMilliseconds: optimumMilliseconds / count,
  };
}

/** The classes of problems that the figures are stated for. */
export const SHAPES = {
  isolate: (seed: number): ProblemShape => ({
    causeCount: 4 + (seed % 9),
    checkCount: 6 + (seed % 9),
    setupCount: seed % 4,
    goal: 'isolate',
    isCrisp: true,
  }),
  repair: (seed: number): ProblemShape => ({
    causeCount: 4 + (seed % 9),
    checkCount: 6 + (seed % 9),
    setupCount: seed % 4,
    goal: 'repair',
    isCrisp: true,
  }),
  isolateLarge: (seed: number): ProblemShape => ({
    causeCount: 14 + (seed % 3),
    checkCount: 16 + (seed % 5),
    setupCount: seed % 4,
    goal: 'isolate',
    isCrisp: true,
  }),
  repairLarge: (seed: number): ProblemShape => ({
    causeCount: 14 + (seed % 3),
    checkCount: 16 + (seed % 5),
    setupCount: seed % 4,
    goal: 'repair',
    isCrisp: true,
  }),
  noisy: (seed: number): ProblemShape => ({
    causeCount: 3 + (seed % 3),
    checkCount: 4 + ((seed >> 1) % 3),
    setupCount: seed % 3,
    goal: 'repair',
    isCrisp: false,
  }),
} as const;

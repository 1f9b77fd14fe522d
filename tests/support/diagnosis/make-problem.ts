import { type Plan, planProblem } from '#core/diagnosis/plan-problem.ts';
import type { DiagnosisProblem } from '#core/diagnosis/problem.ts';
import { readProblem } from '#core/diagnosis/read-problem.ts';

/** Reads a bare problem that must be sound. */
export function readSound(value: object): DiagnosisProblem {
  const read = readProblem(value);
  if (read.kind !== 'read' || read.problem.kind !== 'problem') throw new Error(JSON.stringify(read));
  return read.problem;
}

/** Plans a problem whose evidence must not contradict itself. */
export function planSound(problem: DiagnosisProblem): Plan {
  const result = planProblem(problem);
  if (result.kind !== 'plan') throw new Error(result.contradiction.text);
  return result.plan;
}

/** A problem of 0/1 tests of one minute each: a column for each test, one digit for each cause, and the goal to isolate. */
export function makeMatrix(
  weights: readonly number[],
  columns: readonly (readonly number[])[],
  outcomeCount: number = 2,
): object {
  const outcomes = Array.from({ length: outcomeCount }, (_, outcome) => String(outcome));
  return {
    goal: 'isolate',
    causes: weights.map((weight, index) => ({ id: `s${String(index).padStart(2, '0')}`, weight })),
    checks: columns.map((column, index) => ({
      id: `t${String(index).padStart(4, '0')}`,
      minutes: 1,
      outcomes,
      likelihood: column.map((digit) => outcomes.map((_, outcome) => (outcome === digit ? 1 : 0))),
    })),
  };
}

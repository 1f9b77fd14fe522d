import { describe, expect, test } from 'vitest';
import { type Effort, quick, thorough } from '#core/diagnosis/choose-action.ts';
import { type PlannedStep, type Plan, planProblem } from '#core/diagnosis/plan-problem.ts';
import type { DiagnosisProblem } from '#core/diagnosis/problem.ts';
import { SHAPES } from '../../support/diagnosis/compare-to-optimum.ts';
import { generateProblem } from '../../support/diagnosis/generate-problem.ts';

const LOOKING_AHEAD: Effort = { ...thorough, crispBits: 0, noisyBits: 0 };
const ONE_STEP: Effort = { ...quick, crispBits: 0, noisyBits: 0 };

function plan(problem: DiagnosisProblem, effort: Effort, mostStates: number = 20_000): Plan {
  const result = planProblem(problem, { effort, mostStates });
  if (result.kind !== 'plan') throw new Error(result.contradiction.text);
  return result.plan;
}

interface Followed {
  readonly expected: number;
  readonly worst: number;
}

/** Asks for the next step from nothing but the evidence, takes it, and asks again, through everything that can happen. */
function followPlan(problem: DiagnosisProblem, effort: Effort, known: Map<string, Followed> = new Map()): Followed {
  const key = JSON.stringify(problem.evidence.map((item) => JSON.stringify(item)).toSorted());
  const before = known.get(key);
  if (before !== undefined) return before;
  const { posterior, next } = plan(problem, effort, 1);
  const followed = followStep(
    problem,
    effort,
    posterior.map((item) => item.probability),
    next,
    known,
  );
  known.set(key, followed);
  return followed;
}

function followStep(
  problem: DiagnosisProblem,
  effort: Effort,
  belief: readonly number[],
  next: PlannedStep,
  known: Map<string, Followed>,
): Followed {
  if (next === null) {
    const charge = problem.goal === 'repair' ? problem.giveUpMinutes : 0;
    return { expected: charge, worst: charge };
  }
  if ('probe' in next) throw new Error('a bare problem has no probes');
  const paid = new Set(
    problem.evidence.flatMap((item) =>
      item.kind === 'repaired'
        ? (problem.causes.find((cause) => cause.id === item.cause)?.repairSetup ?? [])
        : (problem.checks.find((check) => check.id === item.check)?.setup ?? []),
    ),
  );
  const setupMinutes = (ids: readonly string[]): number =>
    problem.setups.reduce(
      (sum, setup) => (ids.includes(setup.id) && !paid.has(setup.id) ? sum + setup.minutes : sum),
      0,
    );
  if ('repair' in next) {
    const position = problem.causes.findIndex((cause) => cause.id === next.repair);
    const cause = problem.causes[position];
    if (cause?.repairMinutes === undefined) throw new Error(`${next.repair} cannot be repaired`);
    const minutes = cause.repairMinutes + problem.proveMinutes + setupMinutes(cause.repairSetup);
    const left = 1 - (belief[position] ?? 0) * cause.repairSuccess;
    if (left < 1e-12) return { expected: minutes, worst: minutes };
    const rest = followPlan(
      { ...problem, evidence: [...problem.evidence, { kind: 'repaired', cause: next.repair }] },
      effort,
      known,
    );
    return { expected: minutes + left * rest.expected, worst: minutes + rest.worst };
  }
  const check = problem.checks.find((candidate) => candidate.id === next.check);
  if (check === undefined) throw new Error(`${next.check} is no check`);
  const minutes = check.minutes + setupMinutes(check.setup);
  let expected = minutes;
  let worst = minutes;
  for (const [index, outcome] of check.outcomes.entries()) {
    const probability = belief.reduce((sum, each, cause) => sum + each * (check.likelihood[cause]?.[index] ?? 0), 0);
    if (probability < 1e-12) continue;
    const rest = followPlan(
      { ...problem, evidence: [...problem.evidence, { kind: 'outcome', check: check.id, outcome }] },
      effort,
      known,
    );
    expected += probability * rest.expected;
    worst = Math.max(worst, minutes + rest.worst);
  }
  return { expected, worst };
}

describe('expected minutes of a plan', () => {
  test.each([
    ['complete search', thorough],
    ['looking ahead', LOOKING_AHEAD],
    ['one step and an estimate', ONE_STEP],
  ] as const)('are what following it step by step costs, worst case too: %s', (_name, effort) => {
    for (const seed of [1, 2, 3, 5, 8]) {
      for (const shape of [
        SHAPES.isolate(seed),
        SHAPES.repair(seed),
        SHAPES.noisy(2 * seed + (seed % 3 === 2 ? 0 : 1)),
      ]) {
        const problem = generateProblem(seed, {
          ...shape,
          causeCount: Math.min(shape.causeCount, 7),
          checkCount: Math.min(shape.checkCount, 5),
        });
        const whole = plan(problem, effort);
        const followed = followPlan(problem, effort);
        expect(whole.exact).toBe(true);
        expect(whole.expectedMinutes).toBeCloseTo(followed.expected, 8);
        expect(whole.worstMinutes).toBeCloseTo(followed.worst, 8);
        expect([whole.atLeast, whole.atMost]).toEqual([whole.expectedMinutes, whole.expectedMinutes]);
      }
    }
  });

  test('are right after a step that the plan would not have taken', () => {
    for (const seed of [4, 7, 9]) {
      const problem = generateProblem(seed, {
        causeCount: 5,
        checkCount: 5,
        setupCount: 2,
        goal: 'repair',
        isCrisp: false,
      });
      const own = problem.checks.findIndex(
        (check) => JSON.stringify(plan(problem, LOOKING_AHEAD).next) !== JSON.stringify({ check: check.id }),
      );
      const other = problem.checks[own];
      if (other === undefined) throw new Error('every problem here has other checks');
      const deviated: DiagnosisProblem = {
        ...problem,
        evidence: [
          { kind: 'reading', check: other.id, likelihood: other.outcomes.map((_, index) => 0.2 + index) },
          { kind: 'repaired', cause: problem.causes[0]?.id ?? '' },
        ],
      };
      expect(plan(deviated, LOOKING_AHEAD).expectedMinutes).toBeCloseTo(
        followPlan(deviated, LOOKING_AHEAD).expected,
        8,
      );
    }
  });

  test('lie between the bounds of a plan that was cut short, and the bounds close as more states are visited', () => {
    for (const seed of [1, 2, 3]) {
      const problem = generateProblem(seed, {
        causeCount: 8,
        checkCount: 8,
        setupCount: 2,
        goal: 'repair',
        isCrisp: false,
      });
      const whole = plan(problem, LOOKING_AHEAD);
      expect(whole.exact).toBe(true);
      let width = Number.POSITIVE_INFINITY;
      for (const mostStates of [5, 20, 80, 200]) {
        const cut = plan(problem, LOOKING_AHEAD, mostStates);
        expect(cut.next).toEqual(whole.next);
        expect(cut.atLeast).toBeLessThanOrEqual(whole.expectedMinutes + 1e-9);
        expect(cut.atMost).toBeGreaterThanOrEqual(whole.expectedMinutes - 1e-9);
        expect(cut.expectedMinutes).toBeGreaterThanOrEqual(cut.atLeast - 1e-9);
        expect(cut.expectedMinutes).toBeLessThanOrEqual(cut.atMost + 1e-9);
        expect(cut.worstMinutes).toBeGreaterThanOrEqual(whole.worstMinutes - 1e-9);
        expect(cut.atMost - cut.atLeast).toBeLessThanOrEqual(width + 1e-9);
        width = cut.atMost - cut.atLeast;
      }
    }
  });
});

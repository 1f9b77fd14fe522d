import { describe, expect, test } from 'vitest';
import { chooseAction } from '#core/diagnosis/choose-action.ts';
import { type Effort, thorough } from '#core/diagnosis/choose-action.ts';
import { buildModel, startState } from '#core/diagnosis/model.ts';
import { weighEvidence } from '#core/diagnosis/evidence.ts';
import { compareToOptimum, SHAPES } from '../../support/diagnosis/compare-to-optimum.ts';
import { generateProblem } from '../../support/diagnosis/generate-problem.ts';
import { createRandom } from '../../support/diagnosis/random.ts';
import { chooseByInformation, drawUnit, simulateRepair } from '../../support/diagnosis/simulate-repair.ts';

/** The plan of problems too large to search completely. */
const LOOKING_AHEAD: Effort = { ...thorough, crispBits: 0, noisyBits: 0 };

// The optimum is computed by tests/support/diagnosis/exhaustive-plan.ts, which shares nothing with the engine.
// A sample; tests/bench/planner.ts runs 500 of each.
describe('the plan against the best possible', () => {
  test.each([
    ['isolation of 4 to 12 causes by 0/1 checks', SHAPES.isolate, 60],
    ['repair of 4 to 12 causes by 0/1 checks with set-ups', SHAPES.repair, 60],
    ['isolation of 14 to 16 causes', SHAPES.isolateLarge, 6],
    ['repair of 14 to 16 causes', SHAPES.repairLarge, 6],
    ['repair of 3 to 5 causes by checks that mislead and repairs that fail', SHAPES.noisy, 20],
  ] as const)('is the optimum to 1e-9: %s', (_name, shapeOf, count) => {
    const summary = compareToOptimum(count, shapeOf);
    expect(summary.estimated).toBe(0);
    expect(Math.abs(summary.least - 1)).toBeLessThan(1e-9);
    expect(Math.abs(summary.worst - 1)).toBeLessThan(1e-9);
  });

  test('stays near the optimum by looking ahead alone, as in problems too large to search completely', () => {
    for (const [shapeOf, most] of [
      [SHAPES.repair, 1.005],
      [SHAPES.noisy, 1.005],
      [SHAPES.isolate, 1.015],
    ] as const) {
      const summary = compareToOptimum(30, shapeOf, LOOKING_AHEAD);
      expect(summary.least).toBeGreaterThan(1 - 1e-9);
      expect(summary.mean).toBeLessThan(most);
      expect(summary.worst).toBeLessThan(1.15);
    }
  });

  test('takes fewer minutes than information per minute to 90 % certainty and then repairs, on the same 120 units', () => {
    let base = 0;
    let engine = 0;
    for (let seed = 1; seed <= 120; seed++) {
      const problem = generateProblem(seed, {
        causeCount: 20,
        checkCount: 30,
        setupCount: 3,
        goal: 'repair',
        isCrisp: false,
      });
      const model = buildModel(problem);
      const posterior = weighEvidence(problem);
      if (posterior.kind !== 'posterior') throw new Error('no evidence cannot contradict');
      const state = startState(problem, model, posterior.probabilities);
      const unit = drawUnit(model, posterior.probabilities, createRandom(1_000_000 + seed));
      base += simulateRepair(model, state, unit, (at) => chooseByInformation(model, at));
      engine += simulateRepair(model, state, unit, (at) => chooseAction(model, at, thorough).action);
    }
    expect(engine).toBeLessThan(0.9 * base);
  });
});

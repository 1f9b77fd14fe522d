/**
 * Measures the planner: node tests/bench/planner.ts [--small]
 * Ratios to the best possible plan, gain over information per minute in paired simulation, milliseconds for a suggestion and a plan.
 * Every problem comes from its seed; only the milliseconds differ from run to run.
 */
import { chooseAction } from '#core/diagnosis/choose-action.ts';
import { type Effort, quick, thorough } from '#core/diagnosis/choose-action.ts';
import { planProblem } from '#core/diagnosis/plan-problem.ts';
import { buildModel, startState } from '#core/diagnosis/model.ts';
import { weighEvidence } from '#core/diagnosis/evidence.ts';
import { compareToOptimum, SHAPES } from '../support/diagnosis/compare-to-optimum.ts';
import { generateProblem, type ProblemShape } from '../support/diagnosis/generate-problem.ts';
import { suggestNext } from '../support/diagnosis/suggest-next.ts';
import { createRandom } from '../support/diagnosis/random.ts';
import { chooseByInformation, drawUnit, simulateRepair } from '../support/diagnosis/simulate-repair.ts';

const isSmall = process.argv.includes('--small');
const only = process.argv.find((argument) => argument.startsWith('--only='))?.slice('--only='.length);
const LOOKING_AHEAD: Effort = { ...thorough, crispBits: 0, noisyBits: 0 };
const ONE_STEP: Effort = { ...quick, crispBits: 0, noisyBits: 0 };

function benchRatios(): void {
  const classes = [
    ['isolate, 0/1, 4-12 causes', SHAPES.isolate, isSmall ? 60 : 500],
    ['repair, 0/1, set-ups, 4-12 causes', SHAPES.repair, isSmall ? 60 : 500],
    ['isolate, 0/1, 14-16 causes', SHAPES.isolateLarge, isSmall ? 6 : 500],
    ['repair, 0/1, set-ups, 14-16 causes', SHAPES.repairLarge, isSmall ? 6 : 500],
    ['repair, unreliable, 3-5 causes', SHAPES.noisy, isSmall ? 30 : 500],
  ] as const;
  console.log('\nExpected minutes of the policy / best possible');
  for (const [name, shapeOf, count] of classes) {
    for (const [how, effort] of [
      ['as shipped', thorough],
      ['look ahead only', LOOKING_AHEAD],
      ['one step only', ONE_STEP],
    ] as const) {
      const summary = compareToOptimum(count, shapeOf, effort);
      console.log(
        `${name.padEnd(36)} ${how.padEnd(16)} n ${String(summary.count).padStart(4)}  mean ${summary.mean.toFixed(6)}  p95 ${summary.p95.toFixed(5)}  worst ${summary.worst.toFixed(5)}` +
          `  least ${summary.least.toFixed(12)}  >1.03 ${summary.aboveThreePercent}  estimated ${summary.estimated}  ${summary.planMilliseconds.toFixed(1)} ms`,
      );
    }
  }
}

function benchSimulation(): void {
  console.log('\nPaired simulation: gain over information per minute to 90 %, then repairs (95 % interval)');
  const runs = isSmall ? 100 : 2000;
  for (const [causeCount, checkCount] of [
    [20, 30],
    [40, 60],
    [80, 100],
    [120, 150],
  ] as const) {
    for (const [how, effort] of [
      ['quick', quick],
      ['thorough', thorough],
    ] as const) {
      let base = 0;
      let engine = 0;
      const differences: number[] = [];
      const before = performance.now();
      for (let seed = 1; seed <= runs; seed++) {
        const problem = generateProblem(seed, {
          causeCount,
          checkCount,
          setupCount: 3,
          goal: 'repair',
          isCrisp: false,
        });
        const model = buildModel(problem);
        const posterior = weighEvidence(problem);
        if (posterior.kind !== 'posterior') throw new Error('no evidence cannot contradict');
        const state = startState(problem, model, posterior.probabilities);
        const unit = drawUnit(model, posterior.probabilities, createRandom(1_000_000 + seed));
        const baseMinutes = simulateRepair(model, state, unit, (at) => chooseByInformation(model, at));
        const engineMinutes = simulateRepair(model, state, unit, (at) => chooseAction(model, at, effort).action);
        base += baseMinutes;
        engine += engineMinutes;
        differences.push(baseMinutes - engineMinutes);
      }
      const mean = differences.reduce((sum, value) => sum + value, 0) / runs;
      const variance = differences.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (runs - 1);
      const half = (1.96 * Math.sqrt(variance / runs)) / (base / runs);
      const gain = mean / (base / runs);
      console.log(
        `${causeCount}x${checkCount} ${how.padEnd(9)} runs ${runs}  ${(base / runs).toFixed(2)} -> ${(engine / runs).toFixed(2)} min  gain ${(100 * gain).toFixed(1)} %` +
          ` (${(100 * (gain - half)).toFixed(1)} .. ${(100 * (gain + half)).toFixed(1)})  ${((performance.now() - before) / 1000).toFixed(0)} s`,
      );
    }
  }
}

function benchTimes(): void {
  console.log('\nMilliseconds for one suggestion (first call, median, 95th of 100) and for the whole plan');
  const shapes: readonly ProblemShape[] = [
    { causeCount: 20, checkCount: 30, setupCount: 4, goal: 'repair', isCrisp: true },
    { causeCount: 20, checkCount: 30, setupCount: 4, goal: 'repair', isCrisp: false },
    { causeCount: 40, checkCount: 60, setupCount: 4, goal: 'repair', isCrisp: false },
    { causeCount: 200, checkCount: 300, setupCount: 4, goal: 'isolate', isCrisp: true },
    { causeCount: 200, checkCount: 300, setupCount: 4, goal: 'repair', isCrisp: true },
    { causeCount: 200, checkCount: 300, setupCount: 4, goal: 'repair', isCrisp: false },
  ];
  for (const shape of shapes) {
    const problem = generateProblem(7, shape);
    const model = buildModel(problem);
    const measure = (effort: Effort): string => {
      const times = Array.from({ length: 100 }, () => {
        const before = performance.now();
        suggestNext(problem, model, [], effort);
        return performance.now() - before;
      });
      const first = times[0] ?? Number.NaN;
      times.sort((one, other) => one - other);
      return `${first.toFixed(2)} / ${(times[50] ?? Number.NaN).toFixed(2)} / ${(times[95] ?? Number.NaN).toFixed(2)}`;
    };
    const name = `${shape.causeCount}x${shape.checkCount} ${shape.goal} ${shape.isCrisp ? '0/1' : 'unreliable'}`;
    const suggestions = `${name.padEnd(28)} quick ${measure(quick).padEnd(22)} thorough ${measure(thorough).padEnd(22)}`;
    const before = performance.now();
    const result = planProblem(problem);
    const milliseconds = performance.now() - before;
    if (result.kind !== 'plan') throw new Error(result.contradiction.text);
    const { exact, expectedMinutes, atLeast, atMost } = result.plan;
    console.log(
      `${suggestions} plan ${milliseconds.toFixed(0)} ms, ${expectedMinutes.toFixed(2)} min${exact ? ' exact' : ` (${atLeast.toFixed(2)} .. ${atMost.toFixed(2)})`}`,
    );
  }
}

if (only === undefined || only === 'ratios') benchRatios();
if (only === undefined || only === 'simulation') benchSimulation();
if (only === undefined || only === 'times') benchTimes();

import { planProblem, suggestNext } from '../../src/core/diagnosis/plan-problem.ts';
import { buildModel } from '../../src/core/diagnosis/planning-model.ts';
import { QUICK, THOROUGH } from '../../src/core/diagnosis/choose-action.ts';
import { generateProblem } from '../support/diagnosis/generate-problem.ts';
for (const [n, t, crisp, goal] of [[20, 30, true, 'isolate'], [20, 30, true, 'repair'], [20, 30, false, 'repair'],[40, 60, true, 'repair'], [40, 60, false, 'repair'], [120, 150, false, 'repair'], [200, 300, true, 'isolate'], [200, 300, true, 'repair'], [200, 300, false, 'repair']] as const) {
  const p = generateProblem(7, { causeCount: n, checkCount: t, setupCount: 4, goal, isCrisp: crisp });
  const m = buildModel(p);
  const times: number[] = []; const times2: number[] = [];
  for (let i = 0; i < 40; i++) { let a = performance.now(); suggestNext(p, m, [], QUICK); times.push(performance.now() - a); }
  for (let i = 0; i < 10; i++) { let a = performance.now(); suggestNext(p, m, [], THOROUGH); times2.push(performance.now() - a); }
  console.log(n, t, crisp, goal, 'quick first', times[0].toFixed(2), 'median', times.toSorted((a, b) => a - b)[20].toFixed(2), 'thorough', times2.toSorted((a, b) => a - b)[5].toFixed(2));
  let a = performance.now(); const r = planProblem(p, {}); if (r.kind === 'plan') { const { posterior, groups, ...x } = r.plan; console.log('   plan ms', (performance.now() - a).toFixed(0), JSON.stringify(x)); }
}

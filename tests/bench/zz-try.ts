import { planProblem } from '../../src/core/diagnosis/plan-problem.ts';
import { QUICK, THOROUGH } from '../../src/core/diagnosis/choose-action.ts';
import { generateProblem } from '../support/diagnosis/generate-problem.ts';
import { findOptimum } from '../support/diagnosis/exhaustive-plan.ts';
const FORCED = { ...THOROUGH, exactBits: 0 };
const CHEAP = { ...QUICK, exactBits: 0 };
function run(name: string, count: number, shape: (s: number) => any) {
  const r: Record<string, number[]> = { exact: [], rollout: [], quick: [] }; const ms: Record<string, number> = { opt: 0, exact: 0, rollout: 0, quick: 0 };
  let inexact = 0;
  for (let s = 1; s <= count; s++) {
    const p = generateProblem(s, shape(s));
    let t = performance.now(); const opt = findOptimum(p); ms.opt += performance.now() - t;
    for (const [k, e] of [['exact', THOROUGH], ['rollout', FORCED], ['quick', CHEAP]] as const) {
      t = performance.now(); const q = planProblem(p, { effort: e }); ms[k] += performance.now() - t;
      if (q.kind !== 'plan') throw 1;
      if (!q.plan.exact) inexact++;
      r[k].push(q.plan.expectedMinutes / opt);
    }
  }
  for (const k of Object.keys(r)) { const a = r[k].toSorted((x, y) => x - y); console.log(name, k, 'mean', (a.reduce((x, y) => x + y) / a.length).toFixed(6), 'p95', a[Math.floor(.95 * a.length)].toFixed(5), 'min', a[0].toFixed(12), 'worst', a.at(-1)!.toFixed(6), 'ms', (ms[k] / count).toFixed(2), 'opt ms', (ms.opt / count).toFixed(2), inexact); }
}
const N = Number(process.argv[2] ?? 40);
run('iso 6-12', N, (s) => ({ causeCount: 6 + s % 7, checkCount: 8 + s % 7, setupCount: s % 4, goal: 'isolate', isCrisp: true }));
run('rep 6-12', N, (s) => ({ causeCount: 6 + s % 7, checkCount: 8 + s % 7, setupCount: s % 4, goal: 'repair', isCrisp: true }));
run('noisy 3-5', N, (s) => ({ causeCount: 3 + s % 3, checkCount: 4 + (s >> 1) % 3, setupCount: s % 3, goal: 'repair', isCrisp: false }));
run('iso 14-16', N / 5, (s) => ({ causeCount: 14 + s % 3, checkCount: 16 + s % 5, setupCount: s % 4, goal: 'isolate', isCrisp: true }));
run('rep 14-16', N / 5, (s) => ({ causeCount: 14 + s % 3, checkCount: 16 + s % 5, setupCount: s % 4, goal: 'repair', isCrisp: true }));

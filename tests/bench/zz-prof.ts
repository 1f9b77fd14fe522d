import { planProblem } from '../../src/core/diagnosis/plan-problem.ts';
import { generateProblem } from '../support/diagnosis/generate-problem.ts';
const p = generateProblem(7, { causeCount: 20, checkCount: 30, setupCount: 4, goal: 'repair', isCrisp: false });
let a = performance.now(); const r = planProblem(p, { mostStates: 6000 }); console.log(performance.now() - a); if (r.kind==='plan') console.log(r.plan.expectedMinutes, r.plan.atLeast, r.plan.atMost)

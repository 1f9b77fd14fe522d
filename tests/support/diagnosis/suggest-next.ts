import { chooseAction, type Effort, quick } from '#core/diagnosis/choose-action.ts';
import { weighEvidence } from '#core/diagnosis/evidence.ts';
import { type PlanningModel, startState } from '#core/diagnosis/model.ts';
import { nameAction, type PlannedStep } from '#core/diagnosis/plan-problem.ts';
import type { DiagnosisProblem, Evidence } from '#core/diagnosis/problem.ts';

/** The next step by id, as a press asks for it: evidence weighed, one step chosen, the policy not priced. */
export function suggestNext(
  problem: DiagnosisProblem,
  model: PlanningModel,
  evidence: readonly Evidence[],
  effort: Effort = quick,
  without: readonly string[] = [],
): PlannedStep {
  const posterior = weighEvidence(problem, evidence);
  if (posterior.kind === 'contradiction') throw new Error(posterior.contradiction.text);
  const state = startState(problem, model, posterior.probabilities, evidence, without);
  return nameAction(problem, chooseAction(model, state, effort).action);
}

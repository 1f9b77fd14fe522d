import { planPath } from './plan-path.ts';
import { planProblem, type Plan, type PlanOptions } from './plan-problem.ts';
import type { ProblemMessage } from './problem-message.ts';
import type { ReadProblemResult } from './read-problem.ts';

export type PlanFileResult =
  | { readonly kind: 'plan'; readonly plan: Plan; readonly notes: readonly ProblemMessage[] }
  | { readonly kind: 'refused'; readonly messages: readonly ProblemMessage[] };

/** Plans what readProblem read, a bare problem or a signal path, in one shape for both; what was refused stays refused. */
export function planFile(read: ReadProblemResult, options: PlanOptions = {}): PlanFileResult {
  if (read.kind === 'refused') return read;
  const { problem, notes } = read;
  if (problem.kind === 'problem') {
    const result = planProblem(problem, options);
    if (result.kind === 'plan') return { kind: 'plan', plan: result.plan, notes };
    return {
      kind: 'refused',
      messages: [...notes, { kind: 'error', where: 'evidence', text: result.contradiction.text }],
    };
  }
  const result = planPath(problem);
  if (result.kind === 'contradiction')
    return { kind: 'refused', messages: [...notes, { kind: 'error', where: 'evidence', text: result.text }] };
  const { probabilities, nextProbe, expectedMinutes, worstMinutes, groups } = result.plan;
  const nameStage = (stage: number): string => problem.stages[stage]?.id ?? '';
  return {
    kind: 'plan',
    notes,
    plan: {
      posterior: problem.stages.map((stage, index) => ({ id: stage.id, probability: probabilities[index] ?? 0 })),
      next: nextProbe === undefined ? null : { probe: nextProbe },
      expectedMinutes,
      exact: true,
      atLeast: expectedMinutes,
      atMost: expectedMinutes,
      worstMinutes,
      groups: groups.map((group) => group.map(nameStage)),
    },
  };
}

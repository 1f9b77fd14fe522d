import type { PlanningModel, PlanningState } from './planning-model.ts';
import { listLiveCauses, listUsefulChecks, separates } from './reduce-state.ts';

/**
 * Groups the causes that can still be by the checks not done: two causes are together where every such check treats them alike.
 * In order of their first cause. Cost: groups × causes × checks.
 */
export function groupCauses(model: PlanningModel, state: PlanningState): readonly (readonly number[])[] {
  const live = listLiveCauses(state.belief);
  const checks = listUsefulChecks(model, state, live);
  const groups: number[][] = [];
  for (const cause of live) {
    const group = groups.find(([first = cause]) => checks.every((check) => !separates(model, check, [first, cause])));
    if (group === undefined) groups.push([cause]);
    else group.push(cause);
  }
  return groups;
}

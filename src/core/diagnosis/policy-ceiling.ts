import { sumSetupMinutes, type Action, type PlanningModel, type PlanningState } from './planning-model.ts';
import { takeAction } from './take-action.ts';

/**
 * An upper bound on what the engine can cost from a state on, which it keeps by construction: minutes of repairing in a fixed order
 * (or stopping) plus an allowance for every bit of doubt about the cause. The engine takes only steps after which the expected ceiling,
 * with the step's own minutes, is not above the ceiling before; so by induction the whole policy costs no more than its ceiling.
 * This is what bounds a plan too large to visit. The allowance is wide: it excludes checks that cost far more than they can bring.
 */
export interface Ceiling {
  readonly minutes: number;
  /** Expected minutes of repairing in the fixed order, stopping where that is cheaper. A real plan, so an upper bound on the best. */
  readonly inOrderMinutes: number;
}

/** Minutes allowed for each bit of doubt, as a share of the minutes charged for giving up. */
const ALLOWANCE_FOR_A_BIT = 0.25;

/** Measures the ceiling of a state. Cost: sorting the causes. */
export function measureCeiling(model: PlanningModel, state: PlanningState): Ceiling {
  const order = listFixedOrder(model, state);
  let left = 1;
  let cost = 0;
  let paid = state.paid;
  let inOrderMinutes = model.giveUpMinutes;
  for (const cause of order) {
    const needs = model.repairSetups[cause] ?? 0;
    cost += ((model.repairMinutes[cause] ?? 0) + sumSetupMinutes(model.setupMinutes, needs, paid)) * left;
    if (cost >= inOrderMinutes) break;
    paid |= needs;
    left -= (state.belief[cause] ?? 0) * (model.repairSuccess[cause] ?? 0);
    inOrderMinutes = Math.min(inOrderMinutes, cost + model.giveUpMinutes * Math.max(0, left));
  }
  let bits = 0;
  for (let cause = 0; cause < model.causeCount; cause++) {
    const probability = state.belief[cause] ?? 0;
    if (probability > 0) bits -= probability * Math.log2(probability);
  }
  return { minutes: inOrderMinutes + ALLOWANCE_FOR_A_BIT * model.giveUpMinutes * bits, inOrderMinutes };
}

/** Whether a step keeps below the ceiling of the state it is taken in. */
export function keepsCeiling(model: PlanningModel, state: PlanningState, action: Action, ceiling: Ceiling): boolean {
  const limit = ceiling.minutes * (1 + 1e-12);
  if (action.kind === 'stop') return model.giveUpMinutes <= limit;
  const { minutes, branches } = takeAction(model, state, action);
  return (
    branches.reduce((sum, branch) => sum + branch.probability * measureCeiling(model, branch.state).minutes, minutes) <=
    limit
  );
}

/** The step that the fixed order takes; it always keeps the ceiling. */
export function firstOfFixedOrder(model: PlanningModel, state: PlanningState): Action {
  const { inOrderMinutes } = measureCeiling(model, state);
  const [first] = listFixedOrder(model, state);
  return first === undefined || inOrderMinutes >= model.giveUpMinutes
    ? { kind: 'stop' }
    : { kind: 'repair', cause: first };
}

/**
 * Untried repairs by falling probability of cure for each minute, all set-ups of their own counted, paid or not: an order that
 * neither a failed repair nor a paid set-up changes. Ties by id.
 */
function listFixedOrder(model: PlanningModel, state: PlanningState): number[] {
  const rates = new Float64Array(model.causeCount);
  const order: number[] = [];
  for (let cause = 0; cause < model.causeCount; cause++) {
    const cure = (state.belief[cause] ?? 0) * (model.repairSuccess[cause] ?? 0);
    const minutes = model.repairMinutes[cause] ?? Number.POSITIVE_INFINITY;
    if (cure <= 0 || state.tried[cause] === 1 || minutes === Number.POSITIVE_INFINITY) continue;
    rates[cause] =
      cure / Math.max(1e-9, minutes + sumSetupMinutes(model.setupMinutes, model.repairSetups[cause] ?? 0, 0));
    order.push(cause);
  }
  return order.sort(
    (first, second) =>
      (rates[second] ?? 0) - (rates[first] ?? 0) || (model.repairRanks[first] ?? 0) - (model.repairRanks[second] ?? 0),
  );
}

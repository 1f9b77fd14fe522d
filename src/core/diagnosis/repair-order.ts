import { type Action, type PlanningModel, type PlanningState, stop, sumSetupMinutes, takeAction } from './model.ts';

/** Repairs one after the other, without another check, and what that costs. */
export interface RepairOrder {
  /** Minutes times probability, stopping where that is cheaper. */
  readonly measure: (belief: Float64Array, isTried: Uint8Array, open: number) => number;
  /** The cause to repair first after the last `measure`; −1 where stopping is cheaper. */
  readonly first: () => number;
}

/**
 * Makes a measure of repairing by falling probability of cure per minute (p/c: Kadane and Simon 1977, from memory; the expected cost
 * of repair of Heckerman, Breese and Rommelse 1995): sum over k of minutes(k) × P(not cured before k), cut off at the best place to stop.
 * A set-up that several repairs share is laid upon them by their probabilities for the order, and paid once in the cost.
 * The order is optimal where set-ups are not shared; the cost is that of a real plan in every case. The buffers are reused.
 */
export function createRepairOrder(model: PlanningModel): RepairOrder {
  const { causeCount, repairMinutes, repairSuccess, repairSetups, setupMinutes, giveUpMinutes } = model;
  const order = new Int32Array(causeCount);
  const index = new Float64Array(causeCount);
  const cures = new Float64Array(causeCount);
  const curesBySetup = new Float64Array(setupMinutes.length);
  let firstRepair = -1;
  /** Causes that can be repaired, in the order that the model's own weights give: most beliefs seen later need few swaps from there. */
  const usual = Int32Array.from(
    Array.from({ length: causeCount }, (_, cause) => cause)
      .filter((cause) => (repairMinutes[cause] ?? 0) < Number.POSITIVE_INFINITY && (repairSuccess[cause] ?? 0) > 0)
      .toSorted(
        (first, second) =>
          usualRate(model, second) - usualRate(model, first) ||
          (model.repairRanks[first] ?? 0) - (model.repairRanks[second] ?? 0),
      ),
  );

  const measure = (belief: Float64Array, isTried: Uint8Array, open: number): number => {
    let mass = 0;
    curesBySetup.fill(0);
    let count = 0;
    for (let cause = 0; cause < causeCount; cause++) mass += belief[cause] ?? 0;
    for (let place = 0; place < usual.length; place++) {
      const cause = usual[place] ?? 0;
      const cure = (belief[cause] ?? 0) * (repairSuccess[cause] ?? 0);
      if (cure <= 0 || isTried[cause] === 1) continue;
      cures[cause] = cure;
      order[count++] = cause;
      for (let needs = (repairSetups[cause] ?? 0) & open; needs !== 0; needs &= needs - 1) {
        const setup = 31 - Math.clz32(needs & -needs);
        curesBySetup[setup] = (curesBySetup[setup] ?? 0) + cure;
      }
    }
    for (let place = 0; place < count; place++) {
      const cause = order[place] ?? 0;
      const cure = cures[cause] ?? 0;
      let minutes = repairMinutes[cause] ?? 0;
      for (let needs = (repairSetups[cause] ?? 0) & open; needs !== 0; needs &= needs - 1) {
        const setup = 31 - Math.clz32(needs & -needs);
        minutes += ((setupMinutes[setup] ?? 0) * cure) / (curesBySetup[setup] ?? 1);
      }
      const rate = cure / Math.max(minutes, 1e-9);
      let slot = place;
      while (slot > 0 && (index[slot - 1] ?? 0) < rate) {
        index[slot] = index[slot - 1] ?? 0;
        order[slot] = order[slot - 1] ?? 0;
        slot--;
      }
      index[slot] = rate;
      order[slot] = cause;
    }
    let least = giveUpMinutes * mass;
    let cost = 0;
    let left = open;
    firstRepair = -1;
    for (let place = 0; place < count; place++) {
      const cause = order[place] ?? 0;
      const needs = repairSetups[cause] ?? 0;
      cost += ((repairMinutes[cause] ?? 0) + sumSetupMinutes(setupMinutes, needs & left, 0)) * mass;
      if (cost >= least) break;
      left &= ~needs;
      mass -= cures[cause] ?? 0;
      const total = cost + giveUpMinutes * Math.max(0, mass);
      if (total < least) {
        least = total;
        firstRepair = order[0] ?? -1;
      }
    }
    return least;
  };

  return { measure, first: () => firstRepair };
}

function usualRate({ weights, repairSuccess, repairMinutes }: PlanningModel, cause: number): number {
  return ((weights[cause] ?? 0) * (repairSuccess[cause] ?? 0)) / Math.max(repairMinutes[cause] ?? 0, 1e-9);
}

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
const allowanceForABit = 0.25;

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
  return { minutes: inOrderMinutes + allowanceForABit * model.giveUpMinutes * bits, inOrderMinutes };
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
  return first === undefined || inOrderMinutes >= model.giveUpMinutes ? stop : { kind: 'repair', cause: first };
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

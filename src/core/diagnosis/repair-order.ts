import type { ReducedProblem } from './reduce-state.ts';

/** Repairs one after the other, without another check, and what that costs. */
export interface RepairOrder {
  /** Minutes times probability, stopping where that is cheaper. */
  readonly measure: (belief: Float64Array, isTried: Uint8Array, open: number) => number;
  /** The repair to try first after the last `measure`, as a position in the reduced problem; −1 where stopping is cheaper. */
  readonly first: () => number;
}

/**
 * Makes a measure of repairing by falling probability of cure per minute (p/c: Kadane and Simon 1977, from memory; the expected cost
 * of repair of Heckerman, Breese and Rommelse 1995): sum over k of minutes(k) × P(not cured before k), cut off at the best place to stop.
 * A set-up that several repairs share is laid upon them by their probabilities for the order, and paid once in the cost.
 * The order is optimal where set-ups are not shared; the cost is that of a real plan in every case. The buffers are reused.
 */
export function createRepairOrder(problem: ReducedProblem): RepairOrder {
  const { causeCount, repairMinutes, repairSuccess, repairSetups, setupMinutes, setupCount, giveUpMinutes } = problem;
  const order = new Int32Array(causeCount);
  const index = new Float64Array(causeCount);
  const cures = new Float64Array(causeCount);
  const curesBySetup = new Float64Array(setupCount);
  let firstRepair = -1;
  /** Causes that can be repaired, in the order that the problem's own belief gives: most beliefs seen later need few swaps from there. */
  const usual = Int32Array.from(
    Array.from({ length: causeCount }, (_, cause) => cause)
      .filter((cause) => (repairMinutes[cause] ?? 0) < Number.POSITIVE_INFINITY && (repairSuccess[cause] ?? 0) > 0)
      .toSorted(
        (first, second) =>
          usualRate(problem, second) - usualRate(problem, first) ||
          (problem.repairRanks[first] ?? 0) - (problem.repairRanks[second] ?? 0),
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
        minutes += ((setupMinutes[1 << setup] ?? 0) * cure) / (curesBySetup[setup] ?? 1);
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
      cost += ((repairMinutes[cause] ?? 0) + (setupMinutes[needs & left] ?? 0)) * mass;
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

function usualRate(problem: ReducedProblem, cause: number): number {
  return (
    ((problem.belief[cause] ?? 0) * (problem.repairSuccess[cause] ?? 0)) /
    Math.max(problem.repairMinutes[cause] ?? 0, 1e-9)
  );
}

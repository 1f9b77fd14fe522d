import {
  countBranches,
  fillBranch,
  minutesOf,
  type PlanningModel,
  rankOf,
  setupsOf,
  sum,
  sumSetupMinutes,
} from './model.ts';
import { createRepairOrder } from './repair-order.ts';
import { leastInformationBits, leastMinutes, measureInformationBits } from './screen-checks.ts';

/** How far a look ahead follows its base policy. */
export interface LookAheadLimits {
  /** A branch less probable than this, of 1 at the start, is not followed but estimated. */
  readonly leastProbability: number;
  /** A branch with this many checks is not followed further. */
  readonly mostChecks: number;
}

/**
 * Values of steps in one model, for its weights as they are (not normalised). Expected minutes; infinite where the step is not possible.
 * Steps are numbered: checks first, then repairs.
 */
export interface LookAhead {
  /** Value of a step followed by an estimate. */
  readonly estimate: (step: number) => number;
  /** Value of a step followed by the better of the base policies. */
  readonly follow: (step: number) => number;
  /** The cause to repair first where there is no further check; −1 where stopping is cheaper. */
  readonly firstRepair: number;
}

type BasePolicy = 'hybrid' | 'myopic';

/** With more causes than this the myopic policy misleads (it never sees that a second check will help) and costs too much. */
const mostMyopicCauses = 20;
/**
 * The estimate supposes that every check to come is as good as the best one now, so it falls short of what the policy then costs.
 * Between steps looked at equally far that is the same for all; at the cut of a branch it would favour cheap checks that tell little.
 * Measured in simulation (tests/bench/planner.ts): 1 costs 13 % more than 2 at 20 causes; 1.5 and 2.5 are within 1 % of 2.
 */
const cutEstimateShortfall = 2;
/** The myopic policy passes over checks that tell less per minute than this share of the best. */
const myopicRateShare = 0.3;

/**
 * Looks ahead by rollout: take a step, then follow a base policy, and let the best step win
 * (Tu and Pattipati 2003 for test sequencing; parallel rollout over two base policies as in Ross, Pineau, Paquet and Chaib-draa 2008).
 *
 * The hybrid policy takes the check with most bits per minute if that with an estimate of the rest costs less than the next repair;
 * the estimate mixes "repair in order" with "bits left at the best rate, then one repair". The myopic policy takes a check only if
 * repairing in order right after it costs less than repairing in order now.
 */
export function createLookAhead(model: PlanningModel, limits: LookAheadLimits): LookAhead {
  const { causeCount, checkCount, weights, outcomeCounts, likelihoods, rowEntropies, giveUpMinutes, setupMinutes } =
    model;
  const isIsolation = model.goal === 'isolate';
  const everySetup = 2 ** setupMinutes.length - 1;
  const isTaken = new Uint8Array(checkCount + causeCount);
  const isTried = isTaken.subarray(checkCount);
  const repairOrder = createRepairOrder(model);
  const repairOnce = model.repairMinutes.map((minutes, cause) =>
    Math.min(giveUpMinutes, minutes / Math.max(model.repairSuccess[cause] ?? 0, 1e-9)),
  );
  const buffers: Float64Array[] = [];
  const bufferAt = (depth: number): Float64Array => (buffers[depth] ??= new Float64Array(causeCount));
  const scratch = new Float64Array(causeCount);
  const rates = new Float64Array(checkCount);
  let bestCheck = -1;
  let bestRate = 0;
  let minutesPerBit = 0;
  let trust = 0;

  const minutesWithSetups = (step: number, open: number): number =>
    minutesOf(model, step) + sumSetupMinutes(setupMinutes, setupsOf(model, step) & open, 0);

  /** Finds the check with most bits per minute, the rate, and how far the checks left could go towards certainty. */
  const screen = (from: Float64Array, open: number): void => {
    bestCheck = -1;
    bestRate = 0;
    let bits = 0;
    rates.fill(0);
    for (let check = 0; check < checkCount; check++) {
      if (isTaken[check] === 1) continue;
      const information = measureInformationBits(
        from,
        likelihoods[check] ?? empty,
        rowEntropies[check] ?? empty,
        outcomeCounts[check] ?? 0,
      );
      if (information <= leastInformationBits) continue;
      bits += information;
      const rate = information / Math.max(leastMinutes, minutesWithSetups(check, open));
      rates[check] = rate;
      const isTie = bestCheck >= 0 && rate >= bestRate * (1 - 1e-12);
      if (rate > bestRate * (1 + 1e-12) || (isTie && rankOf(model, check) < rankOf(model, bestCheck))) {
        bestCheck = check;
        bestRate = Math.max(rate, bestRate);
      }
    }
    minutesPerBit = bestRate > 0 ? 1 / bestRate : Number.POSITIVE_INFINITY;
    const entropy = measureEntropy(from);
    trust = entropy > 0 ? Math.min(1, (0.5 * bits) / entropy) : 0;
  };

  /** Estimate of the minutes left, by the rate and trust that `screen` found last. */
  const estimate = (from: Float64Array, open: number): number => {
    const mass = sum(from);
    if (mass <= 0) return 0;
    const bits = measureEntropy(from);
    if (isIsolation)
      return bits <= leastInformationBits || minutesPerBit === Number.POSITIVE_INFINITY
        ? 0
        : minutesPerBit * bits * mass;
    const inOrder = repairOrder.measure(from, isTried, open);
    if (minutesPerBit === Number.POSITIVE_INFINITY) return inOrder;
    let once = 0;
    for (let cause = 0; cause < causeCount; cause++)
      once += (from[cause] ?? 0) * (isTried[cause] === 1 ? giveUpMinutes : (repairOnce[cause] ?? 0));
    return Math.min(inOrder, trust * (minutesPerBit * bits * mass + once) + (1 - trust) * inOrder);
  };

  /** Estimate of a branch that is not followed further, with what such an estimate leaves out. */
  const estimateCut = (from: Float64Array, open: number): number => {
    if (isIsolation) return estimate(from, open);
    return Math.min(repairOrder.measure(from, isTried, open), cutEstimateShortfall * estimate(from, open));
  };

  /** A step, then `rest` of every branch. */
  const sumBranches = (
    from: Float64Array,
    step: number,
    open: number,
    rest: (next: Float64Array, open: number) => number,
    into: Float64Array,
  ): number => {
    const minutes = minutesWithSetups(step, open);
    if (minutes === Number.POSITIVE_INFINITY) return minutes;
    const left = open & ~setupsOf(model, step);
    let total = minutes * sum(from);
    isTaken[step] = 1;
    for (let branch = 0; branch < countBranches(model, step); branch++) {
      fillBranch(model, into, from, step, branch);
      total += rest(into, left);
    }
    isTaken[step] = 0;
    return total;
  };

  const follow = (policy: BasePolicy, from: Float64Array, open: number, depth: number, checksLeft: number): number => {
    const mass = sum(from);
    if (mass <= 1e-300) return 0;
    screen(from, open);
    if (bestCheck < 0) return isIsolation ? 0 : repairOrder.measure(from, isTried, open);
    if (mass < limits.leastProbability || checksLeft === 0) return estimateCut(from, open);
    const step = isIsolation ? bestCheck : pickStep(policy, from, open, mass);
    if (step < 0) return giveUpMinutes * mass;
    const checksAfter = step < checkCount ? checksLeft - 1 : checksLeft;
    return sumBranches(
      from,
      step,
      open,
      (next, left) => follow(policy, next, left, depth + 1, checksAfter),
      bufferAt(depth + 1),
    );
  };

  /** The base policy's step; below 0 it stops. */
  const pickStep = (policy: BasePolicy, from: Float64Array, open: number, mass: number): number => {
    const inOrder = repairOrder.measure(from, isTried, open);
    const first = repairOrder.first();
    const repair = first < 0 ? -1 : checkCount + first;
    if (policy === 'myopic') {
      const check = pickMyopicCheck(from, open, inOrder);
      return check < 0 ? repair : check;
    }
    const check = bestCheck;
    const withCheck = sumBranches(from, check, open, estimate, scratch);
    const withRepair = repair < 0 ? giveUpMinutes * mass : sumBranches(from, repair, open, estimate, scratch);
    return withCheck < withRepair ? check : repair;
  };

  const pickMyopicCheck = (from: Float64Array, open: number, inOrder: number): number => {
    let picked = -1;
    let least = inOrder * (1 - 1e-12);
    const leastRate = bestRate * myopicRateShare;
    for (let check = 0; check < checkCount; check++) {
      if (isTaken[check] === 1 || (rates[check] ?? 0) <= leastRate) continue;
      const value = sumBranches(from, check, open, (next, left) => repairOrder.measure(next, isTried, left), scratch);
      if (value >= least) continue;
      least = value;
      picked = check;
    }
    return picked;
  };

  const policies: readonly BasePolicy[] =
    isIsolation || causeCount > mostMyopicCauses ? ['hybrid'] : ['hybrid', 'myopic'];
  if (!isIsolation) repairOrder.measure(weights, isTried, everySetup);
  const firstRepair = isIsolation ? -1 : repairOrder.first();
  screen(weights, everySetup);
  const rootMinutesPerBit = minutesPerBit;
  const rootTrust = trust;
  return {
    firstRepair,
    estimate(step) {
      minutesPerBit = rootMinutesPerBit;
      trust = rootTrust;
      return sumBranches(weights, step, everySetup, estimate, scratch);
    },
    follow(step) {
      const checksLeft = step < checkCount ? limits.mostChecks - 1 : limits.mostChecks;
      const values = policies.map((policy) =>
        sumBranches(weights, step, everySetup, (next, left) => follow(policy, next, left, 1, checksLeft), bufferAt(1)),
      );
      return Math.min(...values);
    },
  };
}

const empty = new Float64Array();

/** Entropy in bits of a belief of any total. */
function measureEntropy(belief: Float64Array): number {
  const mass = sum(belief);
  if (mass <= 0) return 0;
  let bits = 0;
  for (let cause = 0; cause < belief.length; cause++) {
    const probability = (belief[cause] ?? 0) / mass;
    if (probability > 0) bits -= probability * Math.log2(probability);
  }
  return bits;
}

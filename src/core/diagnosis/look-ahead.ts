import { createRepairOrder } from './repair-order.ts';
import type { ReducedProblem } from './reduce-state.ts';
import { LEAST_INFORMATION_BITS, LEAST_MINUTES, measureInformationBits } from './screen-checks.ts';

/** How far a look ahead follows its base policy. */
export interface LookAheadLimits {
  /** A branch less probable than this, of 1 at the start, is not followed but estimated. */
  readonly leastProbability: number;
  /** A branch with this many checks is not followed further. */
  readonly mostChecks: number;
}

/** Values of actions in one reduced problem. Expected minutes, for the belief of the problem as it is (not normalised). */
export interface LookAhead {
  /** Value of a step followed by an estimate. Infinite where the step is not possible. */
  readonly estimateCheck: (check: number) => number;
  readonly estimateRepair: (cause: number) => number;
  /** Value of a step followed by the better of the base policies. */
  readonly followCheck: (check: number) => number;
  readonly followRepair: (cause: number) => number;
  /** Value of repairing in the best order, or stopping, without another check. */
  readonly repairNow: number;
  /** Position of the repair to try first; −1 where stopping is cheaper. */
  readonly firstRepair: number;
}

type BasePolicy = 'hybrid' | 'myopic';

/** With more causes than this the myopic policy misleads (it never sees that a second check will help) and costs too much. */
const MOST_MYOPIC_CAUSES = 20;
/**
 * The estimate supposes that every check to come is as good as the best one now, so it falls short of what the policy then costs.
 * Between steps looked at equally far that is the same for all; at the cut of a branch it would favour cheap checks that tell little.
 * Measured in simulation (tests/bench/planner.ts): 1 costs 13 % more than 2 at 20 causes; 1.5 and 2.5 are within 1 % of 2.
 */
const CUT_ESTIMATE_SHORTFALL = 2;
const CUT_ESTIMATE_SHORTFALL_ISOLATE = 1;
/** The myopic policy passes over checks that tell less per minute than this share of the best. */
const MYOPIC_RATE_SHARE = 0.3;

/**
 * Looks ahead from a reduced problem by rollout: take a step, then follow a base policy, and let the best step win
 * (Tu and Pattipati 2003 for test sequencing; parallel rollout over two base policies as in Ross, Pineau, Paquet and Chaib-draa 2008).
 *
 * The hybrid policy takes the check with most bits per minute if that with an estimate of the rest costs less than the next repair;
 * the estimate mixes "repair in order" with "bits left at the best rate, then one repair". The myopic policy takes a check only if
 * repairing in order right after it costs less than repairing in order now.
 */
export function createLookAhead(problem: ReducedProblem, limits: LookAheadLimits): LookAhead {
  const {
    causeCount,
    checkCount,
    belief,
    checkMinutes,
    checkSetups,
    outcomeCounts,
    likelihoods,
    isIsolation,
    giveUpMinutes,
  } = problem;
  const { repairMinutes, repairSuccess, repairSetups, setupMinutes } = problem;
  const everySetup = setupMinutes.length - 1;
  const isDone = new Uint8Array(checkCount);
  const isTried = new Uint8Array(causeCount);
  const repairOrder = createRepairOrder(problem);
  const rowEntropies = likelihoods.map((columns, check) =>
    measureRowEntropies(columns, outcomeCounts[check] ?? 0, causeCount),
  );
  const repairOnce = repairMinutes.map((minutes, cause) =>
    Math.min(giveUpMinutes, minutes / Math.max(repairSuccess[cause] ?? 0, 1e-9)),
  );
  const buffers: Float64Array[] = [];
  const bufferAt = (depth: number): Float64Array => (buffers[depth] ??= new Float64Array(causeCount));
  const scratch = new Float64Array(causeCount);
  const rates = new Float64Array(checkCount);
  let bestCheck = -1;
  let bestRate = 0;
  let minutesPerBit = 0;
  let trust = 0;

  /** Finds the check with most bits per minute, the rate, and how far the checks left could go towards certainty. */
  const screen = (from: Float64Array, open: number): void => {
    bestCheck = -1;
    bestRate = 0;
    let bits = 0;
    rates.fill(0);
    for (let check = 0; check < checkCount; check++) {
      if (isDone[check] === 1) continue;
      const information = measureInformationBits(
        from,
        likelihoods[check] ?? EMPTY,
        rowEntropies[check] ?? EMPTY,
        outcomeCounts[check] ?? 0,
      );
      if (information <= LEAST_INFORMATION_BITS) continue;
      bits += information;
      const rate = information / Math.max(LEAST_MINUTES, minutesOfCheck(check, open));
      rates[check] = rate;
      if (
        rate > bestRate * (1 + 1e-12) ||
        (bestCheck >= 0 &&
          rate >= bestRate * (1 - 1e-12) &&
          (problem.checkRanks[check] ?? 0) < (problem.checkRanks[bestCheck] ?? 0))
      ) {
        bestCheck = check;
        bestRate = Math.max(rate, bestRate);
      }
    }
    minutesPerBit = bestRate > 0 ? 1 / bestRate : Number.POSITIVE_INFINITY;
    const entropy = measureEntropy(from);
    trust = entropy > 0 ? Math.min(1, (0.5 * bits) / entropy) : 0;
  };

  const minutesOfCheck = (check: number, open: number): number =>
    (checkMinutes[check] ?? 0) + (setupMinutes[(checkSetups[check] ?? 0) & open] ?? 0);

  /** Estimate of the minutes left, by the rate and trust that `screen` found last. */
  const estimate = (from: Float64Array, open: number): number => {
    const mass = sum(from);
    if (mass <= 0) return 0;
    const bits = measureEntropy(from);
    if (isIsolation)
      return bits <= LEAST_INFORMATION_BITS || minutesPerBit === Number.POSITIVE_INFINITY
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
    if (isIsolation) return CUT_ESTIMATE_SHORTFALL_ISOLATE * estimate(from, open);
    return Math.min(repairOrder.measure(from, isTried, open), CUT_ESTIMATE_SHORTFALL * estimate(from, open));
  };

  const fillOutcome = (into: Float64Array, from: Float64Array, check: number, outcome: number): void => {
    const columns = likelihoods[check] ?? EMPTY;
    for (let cause = 0; cause < causeCount; cause++)
      into[cause] = (from[cause] ?? 0) * (columns[outcome * causeCount + cause] ?? 0);
  };

  const fillRepaired = (into: Float64Array, from: Float64Array, cause: number): void => {
    into.set(from);
    into[cause] = (from[cause] ?? 0) * (1 - (repairSuccess[cause] ?? 0));
  };

  /** A check, then `rest` of every outcome. */
  const sumOutcomes = (
    from: Float64Array,
    check: number,
    open: number,
    rest: (next: Float64Array, open: number) => number,
    into: Float64Array,
  ): number => {
    const left = open & ~(checkSetups[check] ?? 0);
    let total = minutesOfCheck(check, open) * sum(from);
    isDone[check] = 1;
    for (let outcome = 0; outcome < (outcomeCounts[check] ?? 0); outcome++) {
      fillOutcome(into, from, check, outcome);
      total += rest(into, left);
    }
    isDone[check] = 0;
    return total;
  };

  const sumRepair = (
    from: Float64Array,
    cause: number,
    open: number,
    rest: (next: Float64Array, open: number) => number,
    into: Float64Array,
  ): number => {
    const needs = repairSetups[cause] ?? 0;
    const minutes = (repairMinutes[cause] ?? Number.POSITIVE_INFINITY) + (setupMinutes[needs & open] ?? 0);
    if (minutes === Number.POSITIVE_INFINITY) return minutes;
    fillRepaired(into, from, cause);
    isTried[cause] = 1;
    const total = minutes * sum(from) + rest(into, open & ~needs);
    isTried[cause] = 0;
    return total;
  };

  const follow = (policy: BasePolicy, from: Float64Array, open: number, depth: number, checksLeft: number): number => {
    const mass = sum(from);
    if (mass <= 1e-300) return 0;
    screen(from, open);
    if (bestCheck < 0) return isIsolation ? 0 : repairOrder.measure(from, isTried, open);
    if (mass < limits.leastProbability || checksLeft === 0) return estimateCut(from, open);
    const rest = (next: Float64Array, left: number): number => follow(policy, next, left, depth + 1, checksLeft - 1);
    if (isIsolation) return sumOutcomes(from, bestCheck, open, rest, bufferAt(depth + 1));
    const inOrder = repairOrder.measure(from, isTried, open);
    const repair = repairOrder.first();
    const check = policy === 'hybrid' ? pickHybrid(from, open, repair, mass) : pickMyopic(from, open, inOrder);
    if (check >= 0) return sumOutcomes(from, check, open, rest, bufferAt(depth + 1));
    if (repair < 0) return giveUpMinutes * mass;
    return sumRepair(
      from,
      repair,
      open,
      (next, left) => follow(policy, next, left, depth + 1, checksLeft),
      bufferAt(depth + 1),
    );
  };

  const pickHybrid = (from: Float64Array, open: number, repair: number, mass: number): number => {
    const check = bestCheck;
    const withCheck = sumOutcomes(from, check, open, estimate, scratch);
    const withRepair = repair < 0 ? giveUpMinutes * mass : sumRepair(from, repair, open, estimate, scratch);
    return withCheck < withRepair ? check : -1;
  };

  const pickMyopic = (from: Float64Array, open: number, inOrder: number): number => {
    let picked = -1;
    let least = inOrder * (1 - 1e-12);
    const leastRate = bestRate * MYOPIC_RATE_SHARE;
    for (let check = 0; check < checkCount; check++) {
      if (isDone[check] === 1 || (rates[check] ?? 0) <= leastRate) continue;
      const value = sumOutcomes(from, check, open, (next, left) => repairOrder.measure(next, isTried, left), scratch);
      if (value >= least) continue;
      least = value;
      picked = check;
    }
    return picked;
  };

  const policies: readonly BasePolicy[] =
    isIsolation || causeCount > MOST_MYOPIC_CAUSES ? ['hybrid'] : ['hybrid', 'myopic'];
  const leastOf = (value: (policy: BasePolicy) => number): number =>
    policies.reduce((least, policy) => Math.min(least, value(policy)), Number.POSITIVE_INFINITY);

  const repairNow = isIsolation ? 0 : repairOrder.measure(belief, isTried, everySetup);
  const firstRepair = isIsolation ? -1 : repairOrder.first();
  screen(belief, everySetup);
  const rootMinutesPerBit = minutesPerBit;
  const rootTrust = trust;
  const readRate = (): void => {
    minutesPerBit = rootMinutesPerBit;
    trust = rootTrust;
  };
  return {
    repairNow,
    firstRepair,
    estimateCheck(check) {
      readRate();
      return sumOutcomes(belief, check, everySetup, estimate, scratch);
    },
    estimateRepair(cause) {
      readRate();
      return sumRepair(belief, cause, everySetup, estimate, scratch);
    },
    followCheck: (check) =>
      leastOf((policy) =>
        sumOutcomes(
          belief,
          check,
          everySetup,
          (next, left) => follow(policy, next, left, 1, limits.mostChecks - 1),
          bufferAt(1),
        ),
      ),
    followRepair: (cause) =>
      leastOf((policy) =>
        sumRepair(
          belief,
          cause,
          everySetup,
          (next, left) => follow(policy, next, left, 1, limits.mostChecks),
          bufferAt(1),
        ),
      ),
  };
}

const EMPTY = new Float64Array();

function sum(values: Float64Array): number {
  let total = 0;
  for (let index = 0; index < values.length; index++) total += values[index] ?? 0;
  return total;
}

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

/** Entropy in bits of each cause's row of one check. */
function measureRowEntropies(columns: Float64Array, outcomeCount: number, causeCount: number): Float64Array {
  const entropies = new Float64Array(causeCount);
  for (let outcome = 0; outcome < outcomeCount; outcome++) {
    for (let cause = 0; cause < causeCount; cause++) {
      const likelihood = columns[outcome * causeCount + cause] ?? 0;
      if (likelihood > 0 && likelihood < 1)
        entropies[cause] = (entropies[cause] ?? 0) - likelihood * Math.log2(likelihood);
    }
  }
  return entropies;
}

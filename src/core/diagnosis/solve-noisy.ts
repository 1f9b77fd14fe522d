import { isLess, type ExactSolution, type ReducedAction } from './exact-solution.ts';
import type { ReducedProblem } from './reduce-state.ts';

const STOP: ReducedAction = { kind: 'stop' };
const MOST_NOISY_BITS = 30;

/**
 * Measures the state space of solveNoisy in bits: for each check, not done or one of its outcomes; for each repair, tried or not.
 * A step of any plan never makes it larger.
 */
export function measureNoisyBits(problem: ReducedProblem): number {
  let bits = 0;
  for (const outcomeCount of problem.outcomeCounts) bits += Math.log2(outcomeCount + 1);
  for (const minutes of problem.repairMinutes) if (minutes < Number.POSITIVE_INFINITY) bits += 1;
  return problem.hasEverySetup ? bits : Number.POSITIVE_INFINITY;
}

/**
 * Finds the best plan where checks may mislead and repairs may fail: dynamic programming over
 * (what each check showed, which repairs were tried), which give the belief and the set-ups paid for.
 * Depth first, each state once, passing over actions that a lower bound shows to be no better.
 * This is the finite belief-state problem that Raghavan, Shakeri and Pattipati 1999 treat for unreliable tests.
 */
export function solveNoisy(problem: ReducedProblem): ExactSolution {
  const {
    causeCount,
    checkCount,
    checkMinutes,
    checkSetups,
    outcomeCounts,
    likelihoods,
    repairMinutes,
    repairSuccess,
    repairSetups,
    setupMinutes,
  } = problem;
  const { isIsolation, giveUpMinutes } = problem;
  const radix = new Float64Array(checkCount + causeCount);
  let size = 1;
  for (let check = 0; check < checkCount; check++) {
    radix[check] = size;
    size *= (outcomeCounts[check] ?? 0) + 1;
  }
  for (let cause = 0; cause < causeCount; cause++) {
    if (repairMinutes[cause] === Number.POSITIVE_INFINITY) continue;
    radix[checkCount + cause] = size;
    size *= 2;
  }
  if (size > 2 ** MOST_NOISY_BITS) throw new RangeError(`${size} states; measureNoisyBits says beforehand`);
  const known = new Float64Array(size).fill(Number.NaN);
  const isDone = new Uint8Array(checkCount);
  const isTried = new Uint8Array(causeCount);
  const beliefs: Float64Array[] = Array.from(
    { length: checkCount + causeCount + 1 },
    () => new Float64Array(causeCount),
  );
  const leastUntried = Float64Array.from(repairMinutes, (minutes, cause) =>
    isIsolation ? 0 : Math.min(giveUpMinutes, minutes + (1 - (repairSuccess[cause] ?? 0)) * giveUpMinutes),
  );
  const leastTried = isIsolation ? 0 : giveUpMinutes;

  const measureLeast = (belief: Float64Array): number => {
    let least = 0;
    for (let cause = 0; cause < causeCount; cause++)
      least += (belief[cause] ?? 0) * (isTried[cause] === 1 ? leastTried : (leastUntried[cause] ?? 0));
    return least;
  };

  const separates = (check: number, belief: Float64Array): boolean => {
    const columns = likelihoods[check] ?? belief;
    const outcomes = outcomeCounts[check] ?? 0;
    for (let outcome = 0; outcome < outcomes; outcome++) {
      let first = Number.NaN;
      for (let cause = 0; cause < causeCount; cause++) {
        if ((belief[cause] ?? 0) <= 0) continue;
        const likelihood = columns[outcome * causeCount + cause] ?? 0;
        if (Number.isNaN(first)) first = likelihood;
        else if (Math.abs(likelihood - first) > 1e-12) return true;
      }
    }
    return false;
  };

  /** Unnormalised: minutes times the probability of being in this state. `beliefs[depth]` is its belief. */
  const solve = (key: number, depth: number, open: number): number => {
    const before = known[key] ?? Number.NaN;
    if (!Number.isNaN(before)) return before;
    const belief = beliefs[depth] ?? EMPTY;
    let mass = 0;
    for (let cause = 0; cause < causeCount; cause++) mass += belief[cause] ?? 0;
    if (mass <= 1e-300) return 0;
    let best = isIsolation ? Number.POSITIVE_INFINITY : giveUpMinutes * mass;
    for (let cause = 0; cause < causeCount && !isIsolation; cause++)
      best = Math.min(best, tryRepair(cause, key, depth, open, mass, best));
    for (let check = 0; check < checkCount; check++)
      best = Math.min(best, tryCheck(check, key, depth, open, mass, best));
    if (best === Number.POSITIVE_INFINITY) best = 0;
    known[key] = best;
    return best;
  };

  const tryCheck = (check: number, key: number, depth: number, open: number, mass: number, limit: number): number => {
    if (isDone[check] === 1) return Number.POSITIVE_INFINITY;
    const belief = beliefs[depth] ?? EMPTY;
    const needs = checkSetups[check] ?? 0;
    const total = ((checkMinutes[check] ?? 0) + (setupMinutes[needs & open] ?? 0)) * mass;
    let least = measureLeast(belief);
    if (exceeds(total + least, limit) || !separates(check, belief)) return Number.POSITIVE_INFINITY;
    let sum = total;
    isDone[check] = 1;
    const outcomes = outcomeCounts[check] ?? 0;
    for (let outcome = 0; outcome < outcomes && !exceeds(sum + least, limit); outcome++) {
      const next = beliefs[depth + 1] ?? EMPTY;
      fillOutcome(next, belief, likelihoods[check] ?? EMPTY, outcome * causeCount);
      least -= measureLeast(next);
      sum += solve(key + (outcome + 1) * (radix[check] ?? 0), depth + 1, open & ~needs);
    }
    isDone[check] = 0;
    return exceeds(sum + Math.max(0, least), limit) ? Number.POSITIVE_INFINITY : sum;
  };

  const tryRepair = (cause: number, key: number, depth: number, open: number, mass: number, limit: number): number => {
    const belief = beliefs[depth] ?? EMPTY;
    const minutes = repairMinutes[cause] ?? Number.POSITIVE_INFINITY;
    if (isTried[cause] === 1 || minutes === Number.POSITIVE_INFINITY || (belief[cause] ?? 0) <= 0)
      return Number.POSITIVE_INFINITY;
    const needs = repairSetups[cause] ?? 0;
    const total = (minutes + (setupMinutes[needs & open] ?? 0)) * mass;
    const next = beliefs[depth + 1] ?? EMPTY;
    next.set(belief);
    next[cause] = (belief[cause] ?? 0) * (1 - (repairSuccess[cause] ?? 0));
    isTried[cause] = 1;
    const value = exceeds(total + measureLeast(next), limit)
      ? Number.POSITIVE_INFINITY
      : total + solve(key + (radix[checkCount + cause] ?? 0), depth + 1, open & ~needs);
    isTried[cause] = 0;
    return value;
  };

  const decide = (key: number, depth: number, open: number, mass: number): ReducedAction => {
    let best = isIsolation ? Number.POSITIVE_INFINITY : giveUpMinutes * mass;
    let action = STOP;
    let rank = Number.POSITIVE_INFINITY;
    const consider = (value: number, offered: ReducedAction, offeredRank: number): void => {
      if (value === Number.POSITIVE_INFINITY || isLess(best / mass, value / mass)) return;
      if (!isLess(value / mass, best / mass) && offeredRank > rank) return;
      best = Math.min(best, value);
      action = offered;
      rank = offeredRank;
    };
    for (let check = 0; check < checkCount; check++) {
      consider(
        tryCheck(check, key, depth, open, mass, best),
        { kind: 'check', index: check },
        problem.checkRanks[check] ?? 0,
      );
    }
    for (let cause = 0; cause < causeCount && !isIsolation; cause++) {
      consider(
        tryRepair(cause, key, depth, open, mass, best),
        { kind: 'repair', index: cause },
        problem.repairRanks[cause] ?? 0,
      );
    }
    return action;
  };

  const worstKnown = new Map<number, number>();
  const measureWorst = (key: number, depth: number, open: number): number => {
    const before = worstKnown.get(key);
    if (before !== undefined) return before;
    const belief = beliefs[depth] ?? EMPTY;
    const mass = belief.reduce((sum, probability) => sum + probability, 0);
    if (mass <= 1e-300) return 0;
    const action = decide(key, depth, open, mass);
    let worst = isIsolation ? 0 : giveUpMinutes;
    if (action.kind === 'check') {
      const check = action.index;
      const needs = checkSetups[check] ?? 0;
      let deepest = 0;
      isDone[check] = 1;
      for (let outcome = 0; outcome < (outcomeCounts[check] ?? 0); outcome++) {
        fillOutcome(beliefs[depth + 1] ?? EMPTY, belief, likelihoods[check] ?? EMPTY, outcome * causeCount);
        deepest = Math.max(deepest, measureWorst(key + (outcome + 1) * (radix[check] ?? 0), depth + 1, open & ~needs));
      }
      isDone[check] = 0;
      worst = (checkMinutes[check] ?? 0) + (setupMinutes[needs & open] ?? 0) + deepest;
    } else if (action.kind === 'repair') {
      const cause = action.index;
      const needs = repairSetups[cause] ?? 0;
      const next = beliefs[depth + 1] ?? EMPTY;
      next.set(belief);
      next[cause] = (belief[cause] ?? 0) * (1 - (repairSuccess[cause] ?? 0));
      isTried[cause] = 1;
      worst =
        (repairMinutes[cause] ?? 0) +
        (setupMinutes[needs & open] ?? 0) +
        measureWorst(key + (radix[checkCount + cause] ?? 0), depth + 1, open & ~needs);
      isTried[cause] = 0;
    }
    worstKnown.set(key, worst);
    return worst;
  };

  const everySetup = setupMinutes.length - 1;
  (beliefs[0] ?? EMPTY).set(problem.belief);
  const expectedMinutes = solve(0, 0, everySetup);
  const worstMinutes = measureWorst(0, 0, everySetup);
  return { expectedMinutes, worstMinutes, stateCount: worstKnown.size, first: decide(0, 0, everySetup, 1) };
}

const EMPTY = new Float64Array();

/** More than the limit by more than rounding: an equal value must still be seen, for the sake of ties. */
function exceeds(value: number, limit: number): boolean {
  return limit !== Number.POSITIVE_INFINITY && value > limit + 1e-10 * Math.abs(limit);
}

function fillOutcome(next: Float64Array, belief: Float64Array, columns: Float64Array, start: number): void {
  for (let cause = 0; cause < next.length; cause++) next[cause] = (belief[cause] ?? 0) * (columns[start + cause] ?? 0);
}

import { isLess, type ExactSolution, type ReducedAction } from './exact-solution.ts';
import { createMaskSum } from './mask-sum.ts';
import type { ReducedProblem } from './reduce-state.ts';

/** Bits of a cause set: beyond this the work is out of reach anyway. */
const MOST_CRISP_CAUSES = 24;
/** A table of this many bits of state is a plain array; larger state spaces use a hash table. */
const MOST_TABLE_BITS = 20;

/**
 * Measures the state space of solveCrisp in bits: causes, causes tried in vain (which stay possible), open set-ups.
 * Infinite where solveCrisp does not apply. A step of any plan never makes it larger.
 */
export function measureCrispBits(problem: ReducedProblem): number {
  if (!problem.isCrisp || !problem.hasEverySetup || problem.causeCount > MOST_CRISP_CAUSES)
    return Number.POSITIVE_INFINITY;
  return problem.causeCount + 0.585 * countImperfect(problem) + problem.setupCount;
}

/**
 * Finds the best plan where every check comes out one way for each cause: dynamic programming over
 * (causes that can still be, those among them tried in vain, set-ups paid for), depth first, each state once,
 * passing over actions that a lower bound shows to be no better (each cause costs at least its repair or the stop).
 * After Bellman's principle; for isolation the state is that of Pattipati and Alexandridis 1990.
 */
export function solveCrisp(problem: ReducedProblem): ExactSolution {
  const {
    causeCount,
    checkCount,
    belief,
    checkMinutes,
    checkSetups,
    repairMinutes,
    repairSuccess,
    repairSetups,
    setupMinutes,
    giveUpMinutes,
  } = problem;
  const isIsolation = problem.isIsolation;
  const everyCause = 2 ** causeCount - 1;
  const everySetup = setupMinutes.length - 1;
  const outcomeMasks = problem.likelihoods.map((columns, check) =>
    listOutcomeMasks(columns, problem.outcomeCounts[check] ?? 0, causeCount),
  );
  const leastMinutes = Float64Array.from(belief, (_, cause) =>
    isIsolation
      ? 0
      : Math.min(giveUpMinutes, (repairMinutes[cause] ?? 0) + (1 - (repairSuccess[cause] ?? 0)) * giveUpMinutes),
  );
  const massOf = createMaskSum(belief);
  const leastOf = createMaskSum(belief.map((mass, cause) => mass * (leastMinutes[cause] ?? 0)));
  const curedOf = createMaskSum(belief.map((mass, cause) => mass * (repairSuccess[cause] ?? 0)));
  const leastTriedOf = createMaskSum(
    belief.map(
      (mass, cause) => mass * ((1 - (repairSuccess[cause] ?? 0)) * giveUpMinutes - (leastMinutes[cause] ?? 0)),
    ),
  );
  const imperfectBits = belief.map((_, cause) => ((repairSuccess[cause] ?? 0) < 1 ? 1 : 0));
  const hasImperfect = !isIsolation && imperfectBits.some((bit) => bit === 1);
  const bits = causeCount + (hasImperfect ? causeCount : 0) + problem.setupCount;
  const known = bits <= MOST_TABLE_BITS ? createTable(bits) : createHash();
  const triedScale = 2 ** (causeCount + problem.setupCount);

  const measureMass = (live: number, tried: number): number =>
    tried === 0 ? massOf(live) : massOf(live) - curedOf(tried);
  const measureLeast = (live: number, tried: number): number =>
    tried === 0 ? leastOf(live) : leastOf(live) + leastTriedOf(tried);

  /** Unnormalised: minutes times the probability of being in this state. */
  const solve = (live: number, tried: number, open: number): number => {
    if (live === 0 || (isIsolation && (live & (live - 1)) === 0)) return 0;
    const key = tried * triedScale + open * (everyCause + 1) + live;
    const before = known.get(key);
    if (!Number.isNaN(before)) return before;
    const mass = measureMass(live, tried);
    let best = isIsolation ? Number.POSITIVE_INFINITY : giveUpMinutes * mass;
    for (let check = 0; check < checkCount; check++) {
      best = Math.min(best, tryCheck(check, live, tried, open, mass, best));
    }
    if (!isIsolation) {
      for (let cause = 0; cause < causeCount; cause++) {
        if ((live & (1 << cause)) !== 0 && (tried & (1 << cause)) === 0)
          best = Math.min(best, tryRepair(cause, live, tried, open, mass, best));
      }
    }
    if (best === Number.POSITIVE_INFINITY) best = 0;
    known.set(key, best);
    return best;
  };

  const tryCheck = (check: number, live: number, tried: number, open: number, mass: number, limit: number): number => {
    const masks = outcomeMasks[check] ?? EMPTY;
    const needs = checkSetups[check] ?? 0;
    const minutes = (checkMinutes[check] ?? 0) + (setupMinutes[needs & open] ?? 0);
    for (let outcome = 0; outcome < masks.length; outcome++)
      if ((live & ~(masks[outcome] ?? 0)) === 0) return Number.POSITIVE_INFINITY;
    let total = minutes * mass + measureLeast(live, tried);
    for (let outcome = 0; outcome < masks.length; outcome++) {
      if (total >= limit && limit !== Number.POSITIVE_INFINITY && total > limit + 1e-10 * Math.abs(limit))
        return Number.POSITIVE_INFINITY;
      const next = live & (masks[outcome] ?? 0);
      if (next === 0) continue;
      const nextTried = tried & next;
      total += solve(next, nextTried, open & ~needs) - measureLeast(next, nextTried);
    }
    return total;
  };

  const tryRepair = (cause: number, live: number, tried: number, open: number, mass: number, limit: number): number => {
    const needs = repairSetups[cause] ?? 0;
    const minutes = (repairMinutes[cause] ?? Number.POSITIVE_INFINITY) + (setupMinutes[needs & open] ?? 0);
    const bit = 1 << cause;
    const next = imperfectBits[cause] === 1 ? live : live & ~bit;
    const nextTried = imperfectBits[cause] === 1 ? tried | bit : tried;
    if (minutes * mass + measureLeast(next, nextTried) > limit + 1e-10 * Math.abs(limit))
      return Number.POSITIVE_INFINITY;
    return minutes * mass + solve(next, nextTried, open & ~needs);
  };

  const decide = (live: number, tried: number, open: number): ReducedAction => {
    const mass = measureMass(live, tried);
    let best = isIsolation ? Number.POSITIVE_INFINITY : giveUpMinutes * mass;
    let action: ReducedAction = STOP;
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
        tryCheck(check, live, tried, open, mass, best),
        { kind: 'check', index: check },
        problem.checkRanks[check] ?? 0,
      );
    }
    for (let cause = 0; cause < causeCount && !isIsolation; cause++) {
      if ((live & ~tried & (1 << cause)) === 0) continue;
      consider(
        tryRepair(cause, live, tried, open, mass, best),
        { kind: 'repair', index: cause },
        problem.repairRanks[cause] ?? 0,
      );
    }
    return action;
  };

  const worstKnown = new Map<number, number>();
  const measureWorst = (live: number, tried: number, open: number): number => {
    if (live === 0 || (isIsolation && (live & (live - 1)) === 0)) return 0;
    const key = tried * triedScale + open * (everyCause + 1) + live;
    const before = worstKnown.get(key);
    if (before !== undefined) return before;
    const action = decide(live, tried, open);
    let worst = isIsolation ? 0 : giveUpMinutes;
    if (action.kind === 'check') {
      const needs = checkSetups[action.index] ?? 0;
      const minutes = (checkMinutes[action.index] ?? 0) + (setupMinutes[needs & open] ?? 0);
      worst =
        minutes +
        Math.max(
          ...(outcomeMasks[action.index] ?? EMPTY).map((mask) =>
            measureWorst(live & mask, tried & mask, open & ~needs),
          ),
        );
    } else if (action.kind === 'repair') {
      const needs = repairSetups[action.index] ?? 0;
      const minutes = (repairMinutes[action.index] ?? 0) + (setupMinutes[needs & open] ?? 0);
      const bit = 1 << action.index;
      const isImperfect = imperfectBits[action.index] === 1;
      worst =
        minutes + measureWorst(isImperfect ? live : live & ~bit, isImperfect ? tried | bit : tried, open & ~needs);
    }
    worstKnown.set(key, worst);
    return worst;
  };

  return {
    expectedMinutes: solve(everyCause, 0, everySetup),
    worstMinutes: measureWorst(everyCause, 0, everySetup),
    stateCount: worstKnown.size,
    first: causeCount === 0 ? STOP : decide(everyCause, 0, everySetup),
  };
}

const STOP: ReducedAction = { kind: 'stop' };
const EMPTY = new Int32Array();

function countImperfect(problem: ReducedProblem): number {
  if (problem.isIsolation) return 0;
  return problem.repairSuccess.filter(
    (success, cause) => success < 1 && (problem.repairMinutes[cause] ?? 0) < Number.POSITIVE_INFINITY,
  ).length;
}

function listOutcomeMasks(columns: Float64Array, outcomeCount: number, causeCount: number): Int32Array {
  return Int32Array.from({ length: outcomeCount }, (_, outcome) => {
    let mask = 0;
    for (let cause = 0; cause < causeCount; cause++)
      if (columns[outcome * causeCount + cause] === 1) mask |= 1 << cause;
    return mask;
  });
}

/** NaN stands for "not known yet" in both, so that a look-up is one comparison. */
interface KnownValues {
  readonly get: (key: number) => number;
  readonly set: (key: number, value: number) => void;
}

function createTable(bits: number): KnownValues {
  const values = new Float64Array(2 ** bits).fill(Number.NaN);
  return {
    get: (key) => values[key] ?? Number.NaN,
    set: (key, value) => {
      values[key] = value;
    },
  };
}

function createHash(): KnownValues {
  const values = new Map<number, number>();
  return { get: (key) => values.get(key) ?? Number.NaN, set: (key, value) => void values.set(key, value) };
}

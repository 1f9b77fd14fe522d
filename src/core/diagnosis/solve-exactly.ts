import {
  type Action,
  countBranches,
  cutModel,
  fillBranch,
  isLess,
  listLiveCauses,
  listUsefulChecks,
  minutesOf,
  type PlanningModel,
  type PlanningState,
  rankOf,
  setupsOf,
  stop,
  sumSetupMinutes,
  toAction,
} from './model.ts';
import { screenChecks } from './screen-checks.ts';

/** The best plan from one state, found by looking at every state that any plan can reach. */
export interface ExactSolution {
  /** First step of the best plan. */
  readonly first: Action;
  /** Expected minutes of the best plan. */
  readonly expectedMinutes: number;
  /** Most minutes that the best plan can take. */
  readonly worstMinutes: number;
  /** Different states that the best plan reaches. */
  readonly stateCount: number;
}

/** Largest state space, in bits, that is searched completely. */
export interface SearchLimits {
  /** Where every check comes out one way for each cause. */
  readonly crispBits: number;
  /** Where checks may mislead. */
  readonly noisyBits: number;
}

/** Bits of a set of causes: beyond this the work is out of reach anyway. */
const mostSetCauses = 24;
/** A cause that may have been tried in vain, besides excluded or not: log2 of three states, less the one bit counted already. */
const triedBits = 0.585;

/** Searches a state completely where its state space is small enough; undefined where it is not. A step of any plan never makes it larger. */
export function solveExactly(
  model: PlanningModel,
  state: PlanningState,
  limits: SearchLimits,
): ExactSolution | undefined {
  const live = listLiveCauses(state.belief);
  const isIsolation = model.goal === 'isolate';
  // Each cause to repair, else each check that separates, is at least one bit of the search: a cheap way to see that it is out of reach.
  if (!isIsolation && live.length > Math.max(limits.crispBits, limits.noisyBits + countHopeless(model, state, live)))
    return undefined;
  const checks = listUsefulChecks(model, state, live);
  if (isIsolation && checks.length === 0) return { expectedMinutes: 0, worstMinutes: 0, stateCount: 1, first: stop };
  if (isIsolation && excludesNothing(model, checks, live)) return solveWithoutExclusion(model, state, checks);
  if (isIsolation && live.length > limits.crispBits && checks.length > limits.noisyBits) return undefined;
  const cut = cutModel(model, state, { causes: live, checks });
  const space = measureStateSpace(cut.model, limits);
  if (space.bits > space.mostBits) return undefined;
  const solution = searchCompletely(cut.model, space);
  const { first } = solution;
  if (first.kind === 'stop') return solution;
  return {
    ...solution,
    first:
      first.kind === 'check'
        ? { kind: 'check', check: cut.checks[first.check] ?? 0 }
        : { kind: 'repair', cause: cut.causes[first.cause] ?? 0 },
  };
}

/** For causes so improbable that separating them tells next to nothing: isolation has to go on all the same. */
export function firstUsefulCheck(model: PlanningModel, state: PlanningState): Action {
  const useful = listUsefulChecks(model, state, listLiveCauses(state.belief));
  const [first] = useful.toSorted((one, other) => rankOf(model, one) - rankOf(model, other));
  return first === undefined ? stop : { kind: 'check', check: first };
}

/** Causes without a repair left: they add no bit to a noisy search. */
function countHopeless(model: PlanningModel, state: PlanningState, live: readonly number[]): number {
  return live.filter((cause) => state.tried[cause] === 1 || model.repairMinutes[cause] === Number.POSITIVE_INFINITY)
    .length;
}

/** Whether no outcome of these checks can rule out one of the causes. */
function excludesNothing(model: PlanningModel, checks: readonly number[], causes: readonly number[]): boolean {
  return checks.every((check) => {
    const columns = model.likelihoods[check] ?? empty;
    for (let start = 0; start < columns.length; start += model.causeCount) {
      for (const cause of causes) if ((columns[start + cause] ?? 0) <= 0) return false;
    }
    return true;
  });
}

/** Where nothing can be ruled out, every check that separates is made in the end, so every order costs the same: best rate first. */
function solveWithoutExclusion(model: PlanningModel, state: PlanningState, checks: readonly number[]): ExactSolution {
  let minutes = 0;
  let needs = 0;
  for (const check of checks) {
    minutes += model.checkMinutes[check] ?? 0;
    needs |= model.checkSetups[check] ?? 0;
  }
  minutes += sumSetupMinutes(model.setupMinutes, needs, state.paid);
  const [best] = screenChecks(model, state);
  const first: Action = best === undefined ? firstUsefulCheck(model, state) : { kind: 'check', check: best.check };
  return { expectedMinutes: minutes, worstMinutes: minutes, stateCount: 1, first };
}

/** How the states of a search are told apart. */
interface StateSpace {
  /** Size in bits; a step of any plan never makes it larger. */
  readonly bits: number;
  readonly mostBits: number;
  /**
   * Whether causes that can still be stand for what checks without doubt showed, and for repairs that always cure.
   * Else every outcome and every repair stands for itself.
   */
  readonly hasCauseSets: boolean;
  /** For each check, whether its outcome is part of the state by itself. */
  readonly isRecorded: readonly boolean[];
}

function measureStateSpace(model: PlanningModel, { crispBits, noisyBits }: SearchLimits): StateSpace {
  const { causeCount, likelihoods, outcomeCounts, repairMinutes, repairSuccess, setupMinutes } = model;
  const isNoisy = likelihoods.map((columns) => columns.some((likelihood) => likelihood !== 0 && likelihood !== 1));
  const bitsOf = (some: readonly boolean[]): number =>
    some.reduce((bits, isCounted, check) => (isCounted ? bits + Math.log2((outcomeCounts[check] ?? 0) + 1) : bits), 0);
  const canTry = [...repairMinutes.keys()].filter((cause) => (repairMinutes[cause] ?? 0) < Number.POSITIVE_INFINITY);
  const imperfect = canTry.filter((cause) => (repairSuccess[cause] ?? 0) < 1).length;
  const every = isNoisy.map(() => true);
  const historyBits = bitsOf(every) + canTry.length;
  const setBits = causeCount + triedBits * imperfect + setupMinutes.length + bitsOf(isNoisy);
  const isCrisp = !isNoisy.includes(true);
  const hasCauseSets = causeCount <= mostSetCauses && (setBits < historyBits || (isCrisp && setBits <= crispBits));
  return {
    bits: hasCauseSets ? setBits : historyBits,
    mostBits: isCrisp && hasCauseSets ? crispBits : noisyBits,
    hasCauseSets,
    isRecorded: hasCauseSets ? isNoisy : every,
  };
}

/**
 * Finds the best plan by dynamic programming (Bellman's principle), depth first, each state once, passing over steps that a lower bound
 * shows to be no better: each cause costs at least its repair or the stop.
 *
 * A state is what the checks showed and which repairs were tried, which give the belief and the set-ups paid for: the finite
 * belief-state problem that Raghavan, Shakeri and Pattipati 1999 treat for unreliable tests. Where checks come out one way for each cause,
 * the set of causes left stands for their outcomes, as in Pattipati and Alexandridis 1990: many histories are then one state.
 */
function searchCompletely(model: PlanningModel, { hasCauseSets, isRecorded }: StateSpace): ExactSolution {
  const { causeCount, checkCount, giveUpMinutes, likelihoods, repairMinutes, repairSuccess, setupMinutes } = model;
  const isIsolation = model.goal === 'isolate';
  const stepCount = isIsolation ? checkCount : checkCount + causeCount;
  /** What a step's first branch adds to the number of the state, the next one twice that; 0 where the set of causes tells. */
  const places = new Float64Array(checkCount + causeCount);
  let size = 1;
  for (let step = 0; step < stepCount; step++) {
    const isPart =
      step < checkCount ? isRecorded[step] : !hasCauseSets && minutesOf(model, step) < Number.POSITIVE_INFINITY;
    if (isPart !== true) continue;
    places[step] = size;
    size *= countBranches(model, step) + 1;
  }
  const setSize = hasCauseSets ? 2 ** causeCount : 1;
  const paidSize = hasCauseSets ? 2 ** setupMinutes.length : 1;
  const known = new Map<number, number>();
  const minutes = Float64Array.from(places, (_, step) => minutesOf(model, step));
  const setups = Int32Array.from(places, (_, step) => setupsOf(model, step));
  const branchCounts = Int32Array.from(places, (_, step) => countBranches(model, step));
  const isTaken = new Uint8Array(checkCount + causeCount);
  const beliefs = Array.from({ length: checkCount + causeCount + 1 }, () => new Float64Array(causeCount));
  /** Repairs tried on the way here, as bits. */
  let tried = 0;
  const leastTried = isIsolation ? 0 : giveUpMinutes;
  const leastUntried = Float64Array.from(repairMinutes, (minutes, cause) =>
    isIsolation ? 0 : Math.min(giveUpMinutes, minutes + (1 - (repairSuccess[cause] ?? 0)) * giveUpMinutes),
  );

  /** For checks whose outcomes the set of causes tells: the causes, as bits, that each outcome leaves. */
  const masks = likelihoods.map((columns, check) =>
    isRecorded[check] === true
      ? undefined
      : Int32Array.from({ length: branchCounts[check] ?? 0 }, (_, outcome) =>
          columns
            .subarray(outcome * causeCount, (outcome + 1) * causeCount)
            .reduce((mask, likelihood, cause) => (likelihood === 1 ? mask | (1 << cause) : mask), 0),
        ),
  );

  /** Sums up a belief in one pass: what decides where a state is, and the least it can cost. */
  const placeOf = (belief: Float64Array, history: number, depth: number, open: number): Place => {
    let mass = 0;
    let least = 0;
    let live = 0;
    for (let cause = 0; cause < causeCount; cause++) {
      const probability = belief[cause] ?? 0;
      if (probability <= 0) continue;
      mass += probability;
      live |= 1 << cause;
      least += probability * (isTaken[checkCount + cause] === 1 ? leastTried : (leastUntried[cause] ?? 0));
    }
    // Unnormalised beliefs of one key are the same, whatever way led there; `history` counts what `places` adds.
    const key = hasCauseSets ? ((history * paidSize + open) * setSize + (tried & live)) * setSize + live : history;
    return { key, history, depth, open, mass, least, live };
  };

  /** Whether a check without doubt leaves every cause where it is: a few bits tell. */
  const leavesAll = (check: number, live: number): boolean => {
    const ofCheck = masks[check];
    if (ofCheck === undefined) return false;
    for (let outcome = 0; outcome < ofCheck.length; outcome++) if ((live & ~(ofCheck[outcome] ?? 0)) === 0) return true;
    return false;
  };

  const separates = (check: number, belief: Float64Array): boolean => {
    if (masks[check] !== undefined) return true;
    const columns = likelihoods[check] ?? empty;
    for (let start = 0; start < columns.length; start += causeCount) {
      let first = Number.NaN;
      for (let cause = 0; cause < causeCount; cause++) {
        if ((belief[cause] ?? 0) <= 0) continue;
        const likelihood = columns[start + cause] ?? 0;
        if (Number.isNaN(first)) first = likelihood;
        else if (Math.abs(likelihood - first) > 1e-12) return true;
      }
    }
    return false;
  };

  /** Expected minutes times the probability of being in this state. `beliefs[depth]` is its belief. */
  const solve = (place: Place): number => {
    if (place.mass <= 1e-300) return 0;
    const before = known.get(place.key);
    if (before !== undefined) return before;
    let best = isIsolation ? Number.POSITIVE_INFINITY : giveUpMinutes * place.mass;
    // The order only decides how much is passed over: a check without doubt rules out most, else a repair is the plan to beat.
    for (let index = 0; index < stepCount; index++)
      best = Math.min(best, attempt(hasCauseSets ? index : stepCount - 1 - index, place, best));
    if (best === Number.POSITIVE_INFINITY) best = 0;
    known.set(place.key, best);
    return best;
  };

  /** The state after one branch of a step that is marked as taken. */
  const enter = (step: number, branch: number, { history, depth, open }: Place): Place => {
    const next = beliefs[depth + 1] ?? empty;
    fillBranch(model, next, beliefs[depth] ?? empty, step, branch);
    return placeOf(next, history + (branch + 1) * (places[step] ?? 0), depth + 1, open & ~(setups[step] ?? 0));
  };

  const mark = (step: number, isMarked: boolean): void => {
    isTaken[step] = isMarked ? 1 : 0;
    if (step >= checkCount) tried ^= 1 << (step - checkCount);
  };

  /** Expected minutes of a step and the best plan after it, times the probability of the state; infinite where that is above `limit`. */
  const attempt = (step: number, place: Place, limit: number): number => {
    const isCheck = step < checkCount;
    if (isTaken[step] === 1 || minutes[step] === Number.POSITIVE_INFINITY || leavesAll(step, place.live))
      return Number.POSITIVE_INFINITY;
    const belief = beliefs[place.depth] ?? empty;
    let total = minutesAt(step, place.open) * place.mass;
    if (exceeds(total + (isCheck ? place.least : 0), limit)) return Number.POSITIVE_INFINITY;
    if (isCheck ? !separates(step, belief) : (belief[step - checkCount] ?? 0) <= 0) return Number.POSITIVE_INFINITY;
    mark(step, true);
    let rest = place.least;
    for (let branch = 0; branch < (branchCounts[step] ?? 0); branch++) {
      const next = enter(step, branch, place);
      if (!isCheck) rest = next.least;
      if (exceeds(total + Math.max(0, rest), limit)) {
        total = Number.POSITIVE_INFINITY;
        break;
      }
      rest -= next.least;
      total += solve(next);
    }
    mark(step, false);
    return exceeds(total, limit) ? Number.POSITIVE_INFINITY : total;
  };

  const minutesAt = (step: number, open: number): number =>
    (minutes[step] ?? 0) + sumSetupMinutes(setupMinutes, (setups[step] ?? 0) & open, 0);

  const decide = (place: Place): number => {
    const { mass } = place;
    let best = isIsolation ? Number.POSITIVE_INFINITY : giveUpMinutes * mass;
    let chosen = -1;
    let rank = Number.POSITIVE_INFINITY;
    for (let step = 0; step < stepCount; step++) {
      const value = attempt(step, place, best);
      if (value === Number.POSITIVE_INFINITY || isLess(best / mass, value / mass)) continue;
      if (!isLess(value / mass, best / mass) && rankOf(model, step) > rank) continue;
      best = Math.min(best, value);
      chosen = step;
      rank = rankOf(model, step);
    }
    return chosen;
  };

  const worstKnown = new Map<number, number>();
  let first = -1;
  const measureWorst = (place: Place): number => {
    if (place.mass <= 1e-300) return 0;
    const before = worstKnown.get(place.key);
    if (before !== undefined) return before;
    const step = decide(place);
    if (place.depth === 0) first = step;
    let worst = isIsolation || step >= 0 ? 0 : giveUpMinutes;
    if (step >= 0) {
      mark(step, true);
      for (let branch = 0; branch < (branchCounts[step] ?? 0); branch++)
        worst = Math.max(worst, measureWorst(enter(step, branch, place)));
      mark(step, false);
      worst += minutesAt(step, place.open);
    }
    worstKnown.set(place.key, worst);
    return worst;
  };

  (beliefs[0] ?? empty).set(model.weights);
  const start = placeOf(model.weights, 0, 0, 2 ** setupMinutes.length - 1);
  const expectedMinutes = solve(start);
  const worstMinutes = measureWorst(start);
  return { expectedMinutes, worstMinutes, stateCount: worstKnown.size, first: toAction(model, first) };
}

/** One state on the way of a search. */
interface Place {
  /** What tells it from the others. */
  readonly key: number;
  readonly history: number;
  readonly depth: number;
  /** Set-ups not yet paid for, as bits. */
  readonly open: number;
  readonly mass: number;
  /** Expected minutes that no plan can be below, times `mass`. */
  readonly least: number;
  /** Causes that can still be, as bits; without meaning where `history` tells all. */
  readonly live: number;
}

const empty = new Float64Array();

/** More than the limit by more than rounding: an equal value must still be seen, for the sake of ties. */
function exceeds(value: number, limit: number): boolean {
  return limit !== Number.POSITIVE_INFINITY && value > limit + 1e-10 * Math.abs(limit);
}

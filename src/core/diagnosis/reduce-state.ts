import { sumSetupMinutes, type PlanningModel, type PlanningState } from './planning-model.ts';

/** Only what still matters in one state: causes that can be, checks that separate them, set-ups not yet paid for. */
export interface ReducedProblem {
  readonly isIsolation: boolean;
  readonly causeCount: number;
  readonly checkCount: number;
  /** Positions in the model of the causes and checks kept. */
  readonly causes: Int32Array;
  readonly checks: Int32Array;
  /** Probabilities of the causes kept; they sum to one unless causes were cut off. */
  readonly belief: Float64Array;
  readonly checkMinutes: Float64Array;
  readonly checkSetups: Int32Array;
  readonly outcomeCounts: Int32Array;
  /** For each check, P(outcome | cause) at `outcome * causeCount + cause`. */
  readonly likelihoods: readonly Float64Array[];
  /** Infinite where nothing can be done, or was tried. */
  readonly repairMinutes: Float64Array;
  readonly repairSuccess: Float64Array;
  readonly repairSetups: Int32Array;
  /** Minutes of every combination of the open set-ups kept: the index is the mask of those still to pay. */
  readonly setupMinutes: Float64Array;
  readonly setupCount: number;
  /** False where there were so many open set-ups that some had to be counted as minutes of each user. */
  readonly hasEverySetup: boolean;
  readonly giveUpMinutes: number;
  readonly checkRanks: Int32Array;
  readonly repairRanks: Int32Array;
  /** True where every check kept comes out one way for every cause kept. */
  readonly isCrisp: boolean;
}

/** Causes and checks to keep, by their positions in the model. */
export interface KeptParts {
  readonly causes: readonly number[];
  readonly checks: readonly number[];
}

/** Two likelihoods this near to each other are one: the check separates nothing by them. */
const SAME_LIKELIHOOD = 1e-12;
/** More open set-ups than this are merged into their users' minutes, as the table of combinations doubles with each. */
const MOST_OPEN_SETUPS = 12;

/**
 * Reduces a state to the causes given (all with a probability above zero, unless named) and the checks that separate them.
 * Cost: checks × outcomes × causes kept.
 */
export function reduceState(model: PlanningModel, state: PlanningState, kept?: KeptParts): ReducedProblem {
  const causes = Int32Array.from(kept?.causes ?? listLiveCauses(state.belief));
  const checks = Int32Array.from(kept?.checks ?? listUsefulChecks(model, state, causes));
  const causeCount = causes.length;
  const pick = (from: Float64Array | Int32Array, positions: Int32Array, paidSetups: boolean): number[] =>
    Array.from(positions, (position) => (paidSetups ? (from[position] ?? 0) & ~state.paid : (from[position] ?? 0)));
  const isIsolation = model.goal === 'isolate';
  const checkNeeds = pick(model.checkSetups, checks, true);
  const repairNeeds = isIsolation ? new Array<number>(causeCount).fill(0) : pick(model.repairSetups, causes, true);
  const open = [...checkNeeds, ...repairNeeds].reduce((mask, needs) => mask | needs, 0);
  const setups = listBits(open).slice(0, MOST_OPEN_SETUPS);
  const toSmallMask = (needs: number): number =>
    setups.reduce((mask, setup, bit) => ((needs & (1 << setup)) === 0 ? mask : mask | (1 << bit)), 0);
  const keptMask = setups.reduce((mask, setup) => mask | (1 << setup), 0);
  const extraMinutes = (needs: number): number => sumSetupMinutes(model.setupMinutes, needs, keptMask);
  const likelihoods = Array.from(checks, (check) => {
    const columns = model.likelihoods[check] ?? new Float64Array();
    const outcomeCount = model.outcomeCounts[check] ?? 0;
    const picked = new Float64Array(outcomeCount * causeCount);
    for (let outcome = 0; outcome < outcomeCount; outcome++) {
      for (let cause = 0; cause < causeCount; cause++) {
        picked[outcome * causeCount + cause] = columns[outcome * model.causeCount + (causes[cause] ?? 0)] ?? 0;
      }
    }
    return picked;
  });
  return {
    isIsolation,
    causeCount,
    checkCount: checks.length,
    causes,
    checks,
    belief: Float64Array.from(causes, (cause) => state.belief[cause] ?? 0),
    checkMinutes: Float64Array.from(
      checks,
      (check, index) => (model.checkMinutes[check] ?? 0) + extraMinutes(checkNeeds[index] ?? 0),
    ),
    checkSetups: Int32Array.from(checkNeeds, toSmallMask),
    outcomeCounts: Int32Array.from(pick(model.outcomeCounts, checks, false)),
    likelihoods,
    repairMinutes: Float64Array.from(causes, (cause, index) =>
      isIsolation || state.tried[cause] === 1
        ? Number.POSITIVE_INFINITY
        : (model.repairMinutes[cause] ?? Number.POSITIVE_INFINITY) + extraMinutes(repairNeeds[index] ?? 0),
    ),
    repairSuccess: Float64Array.from(pick(model.repairSuccess, causes, false)),
    repairSetups: Int32Array.from(repairNeeds, toSmallMask),
    setupMinutes: tabulateSetupMinutes(setups.map((setup) => model.setupMinutes[setup] ?? 0)),
    setupCount: setups.length,
    hasEverySetup: setups.length === listBits(open).length,
    giveUpMinutes: model.giveUpMinutes,
    checkRanks: Int32Array.from(pick(model.checkRanks, checks, false)),
    repairRanks: Int32Array.from(pick(model.repairRanks, causes, false)),
    isCrisp: likelihoods.every((columns) => columns.every((likelihood) => likelihood === 0 || likelihood === 1)),
  };
}

/** Positions of the causes that can still be. */
export function listLiveCauses(belief: Float64Array): number[] {
  const live: number[] = [];
  belief.forEach((probability, cause) => {
    if (probability > 0) live.push(cause);
  });
  return live;
}

/** Positions of the checks not done that come out differently for at least two of the causes. */
export function listUsefulChecks(model: PlanningModel, state: PlanningState, causes: ArrayLike<number>): number[] {
  const useful: number[] = [];
  for (let check = 0; check < model.checkCount; check++) {
    if (state.done[check] !== 1 && separates(model, check, causes)) useful.push(check);
  }
  return useful;
}

/** Whether some outcome of a check is more probable for one of the causes than for another. */
export function separates(model: PlanningModel, check: number, causes: ArrayLike<number>): boolean {
  const columns = model.likelihoods[check] ?? new Float64Array();
  const outcomeCount = model.outcomeCounts[check] ?? 0;
  for (let outcome = 0; outcome < outcomeCount; outcome++) {
    const start = outcome * model.causeCount;
    const first = columns[start + (causes[0] ?? 0)] ?? 0;
    for (let index = 1; index < causes.length; index++) {
      if (Math.abs((columns[start + (causes[index] ?? 0)] ?? 0) - first) > SAME_LIKELIHOOD) return true;
    }
  }
  return false;
}

function tabulateSetupMinutes(minutes: readonly number[]): Float64Array {
  const table = new Float64Array(1 << minutes.length);
  const all = Float64Array.from(minutes);
  table.forEach((_, mask) => {
    table[mask] = sumSetupMinutes(all, mask, 0);
  });
  return table;
}

function listBits(mask: number): number[] {
  return Array.from({ length: 31 }, (_, bit) => bit).filter((bit) => (mask & (1 << bit)) !== 0);
}

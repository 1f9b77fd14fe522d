import type { DiagnosisProblem, Evidence, Goal } from './problem.ts';

/**
 * A problem as flat numbers, for planning: from a tree or from a file, whole or cut down to what still matters.
 * Causes, checks and set-ups are positions.
 */
export interface PlanningModel {
  readonly goal: Goal;
  readonly causeCount: number;
  readonly checkCount: number;
  /** How probable each cause is relative to the others; of a model that was cut down, its probability. */
  readonly weights: Float64Array;
  readonly checkMinutes: Float64Array;
  /** One bit for each set-up that the check needs. */
  readonly checkSetups: Int32Array;
  readonly outcomeCounts: Int32Array;
  /** For each check, P(outcome | cause) at `outcome * causeCount + cause`. */
  readonly likelihoods: readonly Float64Array[];
  /** For each check and cause, the entropy of the cause's row in bits: how much the check scatters by itself. */
  readonly rowEntropies: readonly Float64Array[];
  /** Repair and proof together; infinite where nothing can be done about the cause, or was tried. */
  readonly repairMinutes: Float64Array;
  readonly repairSuccess: Float64Array;
  readonly repairSetups: Int32Array;
  readonly setupMinutes: Float64Array;
  readonly giveUpMinutes: number;
  /** Places of the ids in alphabetical order of code units, checks before causes of the same id: they break ties. */
  readonly checkRanks: Int32Array;
  readonly repairRanks: Int32Array;
}

/** What is known and paid for at one moment. Everything in it is a set, so the order of the past has no meaning. */
export interface PlanningState {
  /** Probability of each cause. Sums to one. */
  readonly belief: Float64Array;
  /** 1 for a check that was done. */
  readonly done: Uint8Array;
  /** 1 for a cause whose repair was tried. */
  readonly tried: Uint8Array;
  /** One bit for each set-up already paid for. */
  readonly paid: number;
}

/** What to do next, as positions in one model. */
export type Action =
  | { readonly kind: 'check'; readonly check: number }
  | { readonly kind: 'repair'; readonly cause: number }
  | { readonly kind: 'stop' };

export const stop = { kind: 'stop' } as const satisfies Action;

/** Two likelihoods this near to each other are one: the check separates nothing by them. */
const sameLikelihood = 1e-12;
/** Outcomes less probable than this are rounding. */
const leastProbability = 1e-300;

/** Builds the model of a problem that is sound. Cost: one pass over all likelihoods. */
export function buildModel(problem: DiagnosisProblem): PlanningModel {
  const { causes, checks, setups } = problem;
  const toMask = (ids: readonly string[]): number =>
    ids.reduce((mask, id) => mask | (1 << setups.findIndex((setup) => setup.id === id)), 0);
  const ids = [
    ...checks.map((check, index) => ({ id: check.id, index, isCheck: true })),
    ...causes.map((cause, index) => ({ id: cause.id, index, isCheck: false })),
  ].toSorted((first, second) => compareIds(first.id, second.id) || Number(second.isCheck) - Number(first.isCheck));
  const checkRanks = new Int32Array(checks.length);
  const repairRanks = new Int32Array(causes.length);
  ids.forEach((item, rank) => {
    (item.isCheck ? checkRanks : repairRanks)[item.index] = rank;
  });
  const causeCount = causes.length;
  return {
    goal: problem.goal,
    causeCount,
    checkCount: checks.length,
    weights: Float64Array.from(causes, (cause) => cause.weight),
    checkMinutes: Float64Array.from(checks, (check) => check.minutes),
    checkSetups: Int32Array.from(checks, (check) => toMask(check.setup)),
    outcomeCounts: Int32Array.from(checks, (check) => check.outcomes.length),
    likelihoods: checks.map((check) => {
      const columns = new Float64Array(check.outcomes.length * causeCount);
      check.likelihood.forEach((row, cause) => {
        // A row may be off by rounding; what is planned with sums to one.
        const sum = row.reduce((total, probability) => total + probability, 0);
        row.forEach((probability, outcome) => {
          columns[outcome * causeCount + cause] = probability / sum;
        });
      });
      return columns;
    }),
    rowEntropies: checks.map((check) => Float64Array.from(check.likelihood, measureEntropyBits)),
    repairMinutes: Float64Array.from(causes, (cause) =>
      cause.repairMinutes === undefined ? Number.POSITIVE_INFINITY : cause.repairMinutes + problem.proveMinutes,
    ),
    repairSuccess: Float64Array.from(causes, (cause) => cause.repairSuccess),
    repairSetups: Int32Array.from(causes, (cause) => toMask(cause.repairSetup)),
    setupMinutes: Float64Array.from(setups, (setup) => setup.minutes),
    giveUpMinutes: problem.giveUpMinutes,
    checkRanks,
    repairRanks,
  };
}

/**
 * The state after the evidence: its checks are done, its repairs tried, the set-ups of both paid for.
 * `probabilities` come from weighEvidence. Checks in `without` count as done: nothing suggests them.
 */
export function startState(
  problem: DiagnosisProblem,
  model: PlanningModel,
  probabilities: Float64Array,
  evidence: readonly Evidence[] = problem.evidence,
  without: readonly string[] = [],
): PlanningState {
  const done = new Uint8Array(model.checkCount);
  const tried = new Uint8Array(model.causeCount);
  let paid = 0;
  for (const item of evidence) {
    if (item.kind === 'repaired') {
      const cause = problem.causes.findIndex((candidate) => candidate.id === item.cause);
      if (cause < 0) continue;
      tried[cause] = 1;
      paid |= model.repairSetups[cause] ?? 0;
    } else {
      const check = problem.checks.findIndex((candidate) => candidate.id === item.check);
      if (check < 0) continue;
      done[check] = 1;
      paid |= model.checkSetups[check] ?? 0;
    }
  }
  problem.checks.forEach((check, index) => {
    if (without.includes(check.id)) done[index] = 1;
  });
  return { belief: probabilities, done, tried, paid };
}

/** What a step costs and where it can lead; a cure ends everything and is left out. */
export interface StepResult {
  readonly minutes: number;
  readonly branches: readonly {
    readonly probability: number;
    readonly state: PlanningState;
    readonly outcome: number;
  }[];
}

/** Takes a check or a repair: its minutes with the set-ups still to pay, and the states after it, each with its probability. */
export function takeAction(
  model: PlanningModel,
  state: PlanningState,
  action: Exclude<Action, { readonly kind: 'stop' }>,
): StepResult {
  const step = action.kind === 'check' ? action.check : model.checkCount + action.cause;
  const needs = setupsOf(model, step);
  const done = action.kind === 'check' ? markAt(state.done, action.check) : state.done;
  const tried = action.kind === 'repair' ? markAt(state.tried, action.cause) : state.tried;
  const branches = Array.from({ length: countBranches(model, step) }, (_, outcome) => {
    const belief = new Float64Array(model.causeCount);
    fillBranch(model, belief, state.belief, step, outcome);
    const probability = sum(belief);
    for (let cause = 0; cause < belief.length; cause++) belief[cause] = (belief[cause] ?? 0) / probability;
    return { probability, state: { belief, done, tried, paid: state.paid | needs }, outcome };
  });
  return {
    minutes: minutesOf(model, step) + sumSetupMinutes(model.setupMinutes, needs, state.paid),
    branches: branches.filter(({ probability }) => probability > leastProbability),
  };
}

// Loops that treat checks and repairs alike number the steps of a model: its checks first, then the repairs of its causes.

/** Minutes of a step without its set-ups; infinite for a repair that cannot be tried. */
export function minutesOf({ checkCount, checkMinutes, repairMinutes }: PlanningModel, step: number): number {
  return (step < checkCount ? checkMinutes[step] : repairMinutes[step - checkCount]) ?? Number.POSITIVE_INFINITY;
}

/** One bit for each set-up that a step needs. */
export function setupsOf({ checkCount, checkSetups, repairSetups }: PlanningModel, step: number): number {
  return (step < checkCount ? checkSetups[step] : repairSetups[step - checkCount]) ?? 0;
}

/** The lower of two equally good steps is taken. */
export function rankOf({ checkCount, checkRanks, repairRanks }: PlanningModel, step: number): number {
  return (step < checkCount ? checkRanks[step] : repairRanks[step - checkCount]) ?? 0;
}

/** A check has a branch for each outcome, a repair has the one where it did not cure. */
export function countBranches({ checkCount, outcomeCounts }: PlanningModel, step: number): number {
  return step < checkCount ? (outcomeCounts[step] ?? 0) : 1;
}

/** A step as an action; below 0 it is the stop. */
export function toAction({ checkCount }: PlanningModel, step: number): Action {
  if (step < 0) return stop;
  return step < checkCount ? { kind: 'check', check: step } : { kind: 'repair', cause: step - checkCount };
}

/** Fills in the belief after one branch of a step, not normalised: its sum is the branch's probability times the sum of `from`. */
export function fillBranch(
  { causeCount, checkCount, likelihoods, repairSuccess }: PlanningModel,
  into: Float64Array,
  from: Float64Array,
  step: number,
  branch: number,
): void {
  const columns = likelihoods[step];
  if (columns === undefined) {
    const cause = step - checkCount;
    into.set(from);
    into[cause] = (from[cause] ?? 0) * (1 - (repairSuccess[cause] ?? 0));
    return;
  }
  const start = branch * causeCount;
  for (let cause = 0; cause < causeCount; cause++) into[cause] = (from[cause] ?? 0) * (columns[start + cause] ?? 0);
}

/** A model cut down to some of the causes and checks of another. */
export interface CutModel {
  readonly model: PlanningModel;
  /** Positions in the other model of the causes and checks kept; −1 for a cause that stands for several. */
  readonly causes: Int32Array;
  readonly checks: Int32Array;
}

/** Causes and checks to keep, by their positions in the model. */
export interface KeptParts {
  readonly causes: readonly number[];
  readonly checks: readonly number[];
}

/**
 * Cuts a model down to what still matters in one state: the causes given with their probabilities, the checks given, and the set-ups
 * not yet paid for; where the goal is to isolate, and where a repair was tried, there is no repair.
 * Cost: checks × outcomes × causes kept.
 */
export function cutModel(model: PlanningModel, state: PlanningState, kept: KeptParts): CutModel {
  const causes = Int32Array.from(kept.causes);
  const checks = Int32Array.from(kept.checks);
  const canRepair = (cause: number): boolean => model.goal === 'repair' && state.tried[cause] !== 1;
  const checkNeeds = checks.map((check) => (model.checkSetups[check] ?? 0) & ~state.paid);
  const repairNeeds = causes.map((cause) => (canRepair(cause) ? (model.repairSetups[cause] ?? 0) & ~state.paid : 0));
  const open = [...checkNeeds, ...repairNeeds].reduce((mask, needs) => mask | needs, 0);
  const setups = Array.from(model.setupMinutes.keys()).filter((setup) => (open & (1 << setup)) !== 0);
  const renumber = (needs: number): number =>
    setups.reduce((mask, setup, bit) => ((needs & (1 << setup)) === 0 ? mask : mask | (1 << bit)), 0);
  return {
    causes,
    checks,
    model: {
      goal: model.goal,
      causeCount: causes.length,
      checkCount: checks.length,
      weights: pick(state.belief, causes),
      checkMinutes: pick(model.checkMinutes, checks),
      checkSetups: checkNeeds.map(renumber),
      outcomeCounts: checks.map((check) => model.outcomeCounts[check] ?? 0),
      likelihoods: Array.from(checks, (check) => {
        const columns = model.likelihoods[check] ?? new Float64Array();
        const picked = new Float64Array((model.outcomeCounts[check] ?? 0) * causes.length);
        for (let start = 0, from = 0; start < picked.length; start += causes.length, from += model.causeCount) {
          for (let cause = 0; cause < causes.length; cause++)
            picked[start + cause] = columns[from + (causes[cause] ?? 0)] ?? 0;
        }
        return picked;
      }),
      rowEntropies: Array.from(checks, (check) => pick(model.rowEntropies[check] ?? new Float64Array(), causes)),
      repairMinutes: Float64Array.from(causes, (cause) =>
        canRepair(cause) ? (model.repairMinutes[cause] ?? 0) : Number.POSITIVE_INFINITY,
      ),
      repairSuccess: pick(model.repairSuccess, causes),
      repairSetups: repairNeeds.map(renumber),
      setupMinutes: pick(model.setupMinutes, setups),
      giveUpMinutes: model.giveUpMinutes,
      checkRanks: checks.map((check) => model.checkRanks[check] ?? 0),
      repairRanks: causes.map((cause) => model.repairRanks[cause] ?? 0),
    },
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
function separates(model: PlanningModel, check: number, causes: ArrayLike<number>): boolean {
  const columns = model.likelihoods[check] ?? new Float64Array();
  const outcomeCount = model.outcomeCounts[check] ?? 0;
  for (let outcome = 0; outcome < outcomeCount; outcome++) {
    const start = outcome * model.causeCount;
    const first = columns[start + (causes[0] ?? 0)] ?? 0;
    for (let index = 1; index < causes.length; index++) {
      if (Math.abs((columns[start + (causes[index] ?? 0)] ?? 0) - first) > sameLikelihood) return true;
    }
  }
  return false;
}

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

/**
 * Entropy in bits of probabilities that sum to one: −sum p log2 p (Shannon 1948).
 * @example measureEntropyBits([0.5, 0.25, 0.125, 0.125]) // 1.75
 */
export function measureEntropyBits(probabilities: readonly number[]): number {
  return probabilities.reduce(
    (bits, probability) => (probability > 0 ? bits - probability * Math.log2(probability) : bits),
    0,
  );
}

/** Minutes of the set-ups in `needed` that are not in `paid`. */
export function sumSetupMinutes(setupMinutes: Float64Array, needed: number, paid: number): number {
  let open = needed & ~paid;
  let minutes = 0;
  while (open !== 0) {
    const setup = 31 - Math.clz32(open & -open);
    minutes += setupMinutes[setup] ?? 0;
    open &= open - 1;
  }
  return minutes;
}

/** Sum of values, in their order. */
export function sum(values: Float64Array): number {
  let total = 0;
  for (let index = 0; index < values.length; index++) total += values[index] ?? 0;
  return total;
}

/**
 * Whether `value` beats `best` by more than rounding. Values within rounding are ties, and ties go to the lower id,
 * so that the order of causes and checks in a file cannot change the plan.
 * @example isLess(1 - 1e-15, 1) // false
 */
export function isLess(value: number, best: number): boolean {
  return value < best - 1e-11 * Math.max(1, Math.abs(best)) || (best === Number.POSITIVE_INFINITY && value < best);
}

/** Order of code units, the same on every machine: 'a10' before 'a2'. */
function compareIds(first: string, second: string): number {
  return first < second ? -1 : first > second ? 1 : 0;
}

function pick(values: Float64Array, places: Iterable<number>): Float64Array {
  return Float64Array.from(places, (place) => values[place] ?? 0);
}

function markAt(marks: Uint8Array, place: number): Uint8Array {
  const marked = marks.slice();
  marked[place] = 1;
  return marked;
}

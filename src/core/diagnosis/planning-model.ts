import type { DiagnosisProblem, Evidence, Goal } from './problem.ts';

/** A problem as flat numbers for planning. Causes, checks and set-ups are their positions in the problem. */
export interface PlanningModel {
  readonly goal: Goal;
  readonly causeCount: number;
  readonly checkCount: number;
  readonly weights: Float64Array;
  readonly checkMinutes: Float64Array;
  /** One bit for each set-up that the check needs. */
  readonly checkSetups: Int32Array;
  readonly outcomeCounts: Int32Array;
  /** For each check, P(outcome | cause) at `outcome * causeCount + cause`. */
  readonly likelihoods: readonly Float64Array[];
  /** For each check and cause, the entropy of the cause's row in bits: how much the check scatters by itself. */
  readonly rowEntropies: readonly Float64Array[];
  /** Repair and proof together; infinite where nothing can be done about the cause. */
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

/** What to do next; positions in the problem. */
export type Action =
  | { readonly kind: 'check'; readonly check: number }
  | { readonly kind: 'repair'; readonly cause: number }
  | { readonly kind: 'stop' };

/** Builds the model of a problem that readProblem accepted. Cost: one pass over all likelihoods. */
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

/**
 * Entropy in bits of probabilities that sum to one: −sum p log2 p (Shannon 1948).
 * @example measureEntropyBits([0.5, 0.25, 0.125, 0.125]) // 1.75
 */
export function measureEntropyBits(probabilities: readonly number[]): number {
  return probabilities.reduce(
    (sum, probability) => (probability > 0 ? sum - probability * Math.log2(probability) : sum),
    0,
  );
}

/** Order of code units, the same on every machine: 'a10' before 'a2'. */
export function compareIds(first: string, second: string): number {
  return first < second ? -1 : first > second ? 1 : 0;
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

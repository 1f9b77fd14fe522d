import type { Cause, Chance, FaultTree } from '../../model/fault-tree.ts';
import type { References } from '../../model/library.ts';
import type { DiagnosisProblem, Goal, ProblemCause, ProblemCheck, ProblemSetup } from '../problem.ts';
import type { Bench } from './bench.ts';
import { fromRepair, type Hypothesis, isHypothesis, nameSecondFault, notListed } from './hypotheses.ts';
import { collectTreeChecks, type TreeCheck } from './tree-checks.ts';
import { fillRow, readRows } from './fill-rows.ts';

/** The problem of one tree, with the way back to its nodes. Positions are those of the problem. */
export interface TreeProblem {
  readonly tree: FaultTree;
  readonly problem: DiagnosisProblem;
  readonly checks: readonly TreeCheck[];
  /** P(outcome | cause) as far as the tree says it itself: undefined where a check says nothing of a cause. */
  readonly saidRows: readonly (readonly (readonly number[] | undefined)[])[];
}

export interface DeriveOptions {
  readonly bench: Bench;
  readonly goal: Goal;
  /**
   * Every answer right, and one of the ends the fault: for the worth of a tree, which asks what its order is worth and not how good
   * the eyes are.
   */
  readonly isFaultless: boolean;
  /** Repairs that did not cure: what they often bring along becomes more likely (`brings`). */
  readonly repaired: readonly string[];
  /** Whether the last repair made it worse or different, so that it may have brought a fault itself. */
  readonly isWorsened: boolean;
}

/** Our judgement of experience, shown in words and never as figures (design: common, occasional, rare). */
export const chanceWeights: Readonly<Record<Chance, number>> = { common: 9, occasional: 3, rare: 1 };
const notListedWeight = 1;
const successOf: Readonly<Record<'likely' | 'usual' | 'doubtful', number>> = {
  likely: 0.98,
  usual: 0.9,
  doubtful: 0.6,
};
/** Minutes that the search in another tree, or handing the unit over, is taken to cost. Our judgement. */
const otherEndMinutes = 60;
/** Looking over one's own rework: chip turned round, leg bent under, plug one pin off … Our judgement. */
const reworkMinutes = 5;
const reworkSuccess = 0.9;
/** How often a cause that "often brings along" another did so. Our judgement. */
const broughtShare = 0.3;
const defaultLimitMinutes = 240;

/**
 * Derives the diagnosis problem of a tree: its ends as causes (a hand-over for want of an instrument describes the reader and is left
 * out), its checks and the stages of its signal paths as checks, its set-ups paid once, with P(outcome | cause) by readRows and fillRow.
 * A check that must come first (`after`) is a set-up of those that need it and of itself: it is paid for once, whichever comes.
 * A set-up that a power-on ends is paid for with every step that needs it.
 * Cost: nodes × causes.
 */
export function deriveProblem(
  tree: FaultTree,
  references: Pick<References, 'setups' | 'instruments'>,
  options: DeriveOptions,
): TreeProblem {
  const checks = collectTreeChecks(tree, references, options.bench);
  const ends = tree.nodes.filter(isHypothesis);
  const causes: ProblemCause[] = ends.map((end) => toCause(end, references));
  for (const { cause, by } of findBrought(ends, options.repaired)) {
    causes.push({
      ...toCause(cause, references),
      id: nameSecondFault(cause.id, by.id),
      weight: chanceWeights[by.chance] * broughtShare,
    });
  }
  if (options.isWorsened) {
    const total = causes.reduce((sum, { weight }) => sum + weight, 0);
    causes.push({ ...unrepairable(fromRepair, total), repairMinutes: reworkMinutes, repairSuccess: reworkSuccess });
  }
  if (!options.isFaultless) causes.push(unrepairable(notListed, notListedWeight));
  const saidRows = readRows(tree, checks, causes, options.isFaultless);
  const rows = saidRows.map((said, check) => fillRow(said, causes, checks[check]?.words.length ?? 0));
  const problemChecks = checks.map((check, index): ProblemCheck => ({
    id: check.id,
    minutes: check.minutes,
    setup: check.setups,
    outcomes: check.words,
    likelihood: rows[index] ?? [],
  }));
  return {
    tree,
    checks,
    saidRows,
    problem: {
      kind: 'problem',
      causes,
      checks: problemChecks,
      setups: listSetups(checks, causes, references),
      goal: options.goal,
      proveMinutes: 0,
      giveUpMinutes: options.bench.limitMinutes ?? defaultLimitMinutes,
      evidence: [],
    },
  };
}

function findBrought(
  ends: readonly Hypothesis[],
  repaired: readonly string[],
): readonly { readonly cause: Cause; readonly by: Cause }[] {
  const causes = ends.filter((end) => end.kind === 'cause');
  return causes
    .filter(({ id }) => repaired.includes(id))
    .flatMap((by) => causes.filter(({ id }) => by.brings.includes(id)).map((cause) => ({ cause, by })));
}

function toCause(end: Hypothesis, { setups }: Pick<References, 'setups'>): ProblemCause {
  const weight = chanceWeights[end.chance];
  if (end.kind !== 'cause') {
    return { id: end.id, weight, repairMinutes: otherEndMinutes, repairSuccess: 1, repairSetup: [] };
  }
  const { repair, prove } = end;
  if (repair === undefined) return unrepairable(end.id, weight);
  const passing = repair.needs.filter((slug) => setups.get(slug)?.endedBy !== undefined);
  return {
    id: end.id,
    weight,
    repairMinutes:
      repair.minutes + (prove?.minutes ?? 0) + passing.reduce((sum, slug) => sum + (setups.get(slug)?.minutes ?? 0), 0),
    repairSuccess: successOf[repair.success],
    repairSetup: repair.needs.filter((slug) => !passing.includes(slug)),
  };
}

function unrepairable(id: string, weight: number): ProblemCause {
  return { id, weight, repairMinutes: undefined, repairSuccess: 1, repairSetup: [] };
}

/** Set-ups that something needs, in the order they are met, then what must come first, as minutes of the check itself. */
function listSetups(
  checks: readonly TreeCheck[],
  causes: readonly ProblemCause[],
  { setups }: Pick<References, 'setups'>,
): readonly ProblemSetup[] {
  const ids = new Set([
    ...checks.flatMap((check) => check.setups),
    ...causes.flatMap(({ repairSetup }) => repairSetup),
  ]);
  return [...ids].map((id) => ({
    id,
    minutes: setups.get(id)?.minutes ?? checks.find((check) => check.asSetup?.id === id)?.asSetup?.minutes ?? 0,
  }));
}

import type {
  Cause,
  Chance,
  Check,
  Elsewhere,
  FaultTree,
  HandOver,
  Outcome,
  SignalPath,
  Stage,
  TreeNode,
} from '../../model/fault-tree.ts';
import type { References } from '../../model/library.ts';
import { findNode, reachableFrom, stagesToldBy, stagesUpTo } from '../../model/node.ts';
import { reworkRepair } from '../../answer/answer.ts';
import type { DiagnosisProblem, Goal, ProblemCause, ProblemCheck, ProblemSetup } from '../problem.ts';
import { type Bench, collectTreeChecks, type TreeCheck } from './tree-checks.ts';

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
  /** The tree's checks as collectTreeChecks gave them for this bench; collected here where left out. */
  readonly checks?: readonly TreeCheck[] | undefined;
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
  const checks = options.checks ?? collectTreeChecks(tree, references, options.bench);
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

/** What may be wrong: an end of the tree. */
export type Hypothesis = Cause | Elsewhere | HandOver;

/** Something that no tree lists: part of every diagnosis. */
export const notListed = 'not-listed';
/** A fault that the last repair brought; links name the look at one's own rework by the same word. */
export const fromRepair: string = reworkRepair;
/** Between a cause and the one that brought it, in the id of a second fault: no node's id holds it. */
const broughtBy = '.by.';

/** Whether a node may be what is wrong. A hand-over for want of an instrument describes the reader and is none. */
export function isHypothesis(node: TreeNode): node is Hypothesis {
  return (
    node.kind === 'cause' || node.kind === 'elsewhere' || (node.kind === 'hand-over' && node.because !== 'instrument')
  );
}

export function nameSecondFault(cause: string, bringer: string): string {
  return `${cause}${broughtBy}${bringer}`;
}

/** The node that a cause of the problem stands for, a second fault's own; undefined where it stands for none. */
export function hypothesisOf(tree: FaultTree, causeId: string): Hypothesis | undefined {
  const node = findNode(tree, causeId.split(broughtBy)[0] ?? causeId);
  return node !== undefined && isHypothesis(node) ? node : undefined;
}

/** The cause that brought a second fault, or undefined where the id is not one of a second fault. */
export function bringerOf(causeId: string): string | undefined {
  return causeId.split(broughtBy)[1];
}

type Row = readonly number[];

/**
 * What a tree says itself of P(outcome | cause), for every check (outer) and cause (inner), rows that sum to one:
 * 1. what a circuit computes, each outcome seen with the check's reliability r and any other instead with 1 − r;
 * 2. else what the cause shows at the check (`shows`), any of several equally: they share the check's reliability r, the others 1 − r;
 * 3. else the outcomes that lead on to the cause, where the check lies on a road from the start to it, in the same way; an outcome that by
 *    `says-before` or `says-after` puts the fault on the other side of a stage is none of them;
 * 4. else those that so put it on the side where the cause lies, or all that do not put it on the other;
 * undefined where it says nothing. A stage of a signal path is bad where the cause lies before it and good else. Each check has one row for
 * a cause, so that what is said twice counts once.
 * `isFaultless` puts r at 1. A second fault shows what its bringer and it show, in equal parts, as no answer says which came first.
 */
export function readRows(
  tree: FaultTree,
  checks: readonly TreeCheck[],
  causes: readonly ProblemCause[],
  isFaultless: boolean,
): readonly (readonly (Row | undefined)[])[] {
  const reached = new Map(tree.nodes.map(({ id }) => [id, reachableFrom(tree, id)]));
  const reaches: Reaches = (from, to) => reached.get(from)?.has(to) === true;
  return checks.map((check) => {
    const reliability = isFaultless ? 1 : check.reliability;
    const rowFor = (cause: string): Row | undefined =>
      computedRow(tree, check, cause, reliability) ??
      rowOf(tree, check, hypothesisOf(tree, cause), reaches, reliability);
    return causes.map(({ id }): Row | undefined => {
      const own = rowFor(id);
      const by = bringerOf(id);
      if (by === undefined) return own;
      const bringers = rowFor(by);
      return own === undefined || bringers === undefined ? (own ?? bringers) : mix(own, bringers);
    });
  });
}

/**
 * Fills what a check says nothing of with the mean row of the causes that it speaks of, weighted by their prior: that leaves the
 * probability of the others exactly as it was. Even where it speaks of none.
 */
export function fillRow(
  said: readonly (Row | undefined)[],
  causes: readonly ProblemCause[],
  outcomeCount: number,
): readonly Row[] {
  const mean = findMean(said, causes, outcomeCount);
  return said.map((row) => row ?? mean);
}

/** What a circuit computes of a cause at a check, read as reliably as the check is; undefined where none does. */
function computedRow(
  { computed }: Pick<FaultTree, 'computed'>,
  { id, words, stage }: TreeCheck,
  cause: string,
  reliability: number,
): Row | undefined {
  const said = Object.hasOwn(computed, cause) ? computed[cause]?.[id] : undefined;
  if (said === undefined) return undefined;
  const shares = words.map((word) => (Object.hasOwn(said, word) ? (said[word] ?? 0) : 0));
  const sound = said['in'] ?? 0;
  const read = stage === undefined ? shares : [sound, 1 - sound];
  const whole = read.reduce((sum, share) => sum + share, 0);
  if (whole === 0) return undefined;
  const rest = Math.max(1, words.length - 1);
  return read.map((share) => {
    const probability = share / whole;
    return reliability * probability + ((1 - reliability) * (1 - probability)) / rest;
  });
}

/** Whether a road leads from one node to another. */
type Reaches = (from: string, to: string) => boolean;

function rowOf(
  tree: FaultTree,
  check: TreeCheck,
  cause: Hypothesis | undefined,
  reaches: Reaches,
  reliability: number,
): Row | undefined {
  if (cause === undefined) return undefined;
  const { node, stage } = check;
  if (node.kind === 'path')
    return stage === undefined ? undefined : rowOfStage(node, stage, cause, reaches, reliability);
  const shown = shownAt(cause, node.id);
  const likely = new Set(shown.length > 0 ? shown : likelyWords(tree, node, cause, reaches));
  const count = check.words.filter((word) => likely.has(word)).length;
  return count === 0 ? undefined : share(check.words, likely, count, reliability);
}

function shownAt({ shows }: Hypothesis, node: string): readonly string[] {
  return Object.hasOwn(shows, node) ? (shows[node] ?? []) : [];
}

/** Words that may be read, by what they say of the cause's place and by the roads that lead on to it. */
function likelyWords(tree: FaultTree, check: Check, cause: Hypothesis, reaches: Reaches): readonly string[] {
  const placed = check.outcomes.map((outcome) => ({
    ...outcome,
    agrees: agreesWithPlace(tree, outcome, cause, reaches),
  }));
  const open = placed.filter(({ agrees }) => agrees !== false);
  const leading = open.filter(({ to }) => reaches(to, cause.id));
  const agreeing = open.filter(({ agrees }) => agrees === true);
  const left = open.length < placed.length ? open : [];
  return [leading, agreeing, left].find((some) => some.length > 0)?.flatMap(({ when }) => when) ?? [];
}

/**
 * Whether what an outcome says of signal paths (`says-before`, `says-after`) allows the place of a cause on them; undefined where it says
 * nothing, or the cause has no place there.
 */
export function agreesWithPlace(
  tree: FaultTree,
  outcome: Outcome,
  cause: Hypothesis,
  reaches: Reaches,
): boolean | undefined {
  const told = stagesToldBy(outcome).flatMap(({ path: id, stage, isGood }) => {
    const path = findNode(tree, id);
    const places = path?.kind === 'path' ? placesOn(path, cause, reaches) : [];
    if (path?.kind !== 'path' || places.length === 0) return [];
    const before = stagesUpTo(path, stage);
    return [places.some((place) => before.has(place) !== isGood)];
  });
  return told.length === 0 ? undefined : !told.includes(false);
}

function share(words: readonly string[], likely: ReadonlySet<string>, count: number, reliability: number): Row {
  const rest = words.length - count;
  return words.map((word) => {
    if (rest === 0) return 1 / count;
    return likely.has(word) ? reliability / count : (1 - reliability) / rest;
  });
}

/** `good` and `bad` at one stage, from where on the path the cause makes the signal bad. */
function rowOfStage(
  path: SignalPath,
  stage: Stage,
  cause: Hypothesis,
  reaches: Reaches,
  reliability: number,
): Row | undefined {
  const places = placesOn(path, cause, reaches);
  if (places.length === 0) return undefined;
  const before = stagesUpTo(path, stage.id);
  const bad = places.filter((place) => before.has(place)).length / places.length;
  const shownBad = reliability * bad + (1 - reliability) * (1 - bad);
  return [1 - shownBad, shownBad];
}

/**
 * First bad stages of a path that a cause may make, `good` where it lies behind all of them: what it shows there, else the stages whose
 * fault leads to it, and `good` where the end of the path does. Empty where it has no place on it.
 */
function placesOn(path: SignalPath, cause: Hypothesis, reaches: Reaches): readonly string[] {
  const shown = shownAt(cause, path.id);
  if (shown.length > 0) return shown.filter((word) => word === 'good' || path.stages.some(({ id }) => id === word));
  return [
    ...path.stages.filter(({ fault }) => reaches(fault, cause.id)).map(({ id }) => id),
    ...(reaches(path.good, cause.id) ? ['good'] : []),
  ];
}

function mix(first: Row, second: Row): Row {
  return first.map((probability, outcome) => (probability + (second[outcome] ?? 0)) / 2);
}

/** The mean of the rows that are there, weighted by the causes' priors; even where there is none. */
function findMean(rows: readonly (Row | undefined)[], causes: readonly ProblemCause[], count: number): Row {
  const sums = new Array<number>(count).fill(0);
  let total = 0;
  rows.forEach((row, cause) => {
    if (row === undefined) return;
    const weight = causes[cause]?.weight ?? 0;
    total += weight;
    row.forEach((probability, outcome) => {
      sums[outcome] = (sums[outcome] ?? 0) + weight * probability;
    });
  });
  return sums.map((sum) => (total > 0 ? sum / total : 1 / count));
}

import type { FaultTree } from '../../model/fault-tree.ts';
import type { References } from '../../model/library.ts';
import { findNode, isStep } from '../../model/node.ts';
import { type Effort, quick } from '../choose-action.ts';
import { evaluatePolicy, type PolicyValue } from '../evaluate-policy.ts';
import { type Contradiction, findConflict, weighEvidence } from '../evidence.ts';
import { buildModel, type PlanningModel, type PlanningState, startState } from '../model.ts';
import type { Evidence } from '../problem.ts';
import { screenChecks } from '../screen-checks.ts';
import { chooseNext, type ChosenStep, type Situation } from './choose-next.ts';
import { deriveProblem, fromRepair, hypothesisOf, notListed, type TreeProblem } from './derive-problem.ts';
import { type Bench, isAtHand, type TreeCheck } from './tree-checks.ts';
import {
  followWritten,
  type KnownWords,
  listCleared,
  listKnownWords,
  listLacking,
  type ReadAnswer,
  leadsOf,
  walkRoad,
  type WrittenValue,
} from './written-road.ts';

/** What is known of one unit on one tree. */
export interface Known {
  readonly read: readonly ReadAnswer[];
  /** Ids of causes whose repair did not cure; `rework` where one's own rework was looked over in vain. */
  readonly did: readonly string[];
  /** Whether the last repair made it worse or different. */
  readonly isWorsened: boolean;
}

export interface AssessedCause {
  /** Id of a node, `not-listed` or `rework`. */
  readonly id: string;
  readonly title: string;
  readonly probability: number;
  /** The probability in words; the figure rests on experience and is not for showing. */
  readonly words: 'most likely' | 'likely' | 'possible' | 'unlikely';
}

export type NextStep =
  | { readonly kind: 'check'; readonly node: string; readonly stage: string | undefined; readonly title: string }
  | { readonly kind: 'repair' | 'elsewhere' | 'hand-over'; readonly node: string; readonly title: string }
  /** Look over one's own last repair first. */
  | { readonly kind: 'rework' }
  /** Stopping is the better plan, or nothing is left to tell the causes apart. */
  | { readonly kind: 'stop' };

/** What the engine makes of what is known. */
export interface Assessment {
  /** The likeliest first; second faults joined with their cause. Sums to one. */
  readonly causes: readonly AssessedCause[];
  readonly next: NextStep;
  /** One sentence: why this step. */
  readonly why: string;
  /** The tree's own next node. */
  readonly written: { readonly node: string; readonly title: string };
  /** Expected minutes to a proven repair with the engine, and as the tree is written; about. */
  readonly expectedMinutes: number;
  readonly writtenMinutes: number;
  /** Whether expectedMinutes was computed over every state of the plan. */
  readonly isExact: boolean;
  /** Answers that hardly fit together, in words, or undefined. */
  readonly conflict: string | undefined;
}

export interface AssessOptions {
  readonly bench: Bench;
  /** How hard to think; quick answers a press. */
  readonly effort?: Effort;
  /** States of the plan to visit for the expected minutes; 0: do not price it (both minutes are then NaN). */
  readonly mostStates?: number;
  /** The tree's checks as collectTreeChecks gave them for this bench; collected here where left out. */
  readonly checks?: readonly TreeCheck[] | undefined;
}

const reworkTitle = 'Something that the last repair left behind';
const notListedTitle = 'Something not listed here';
const keptOrder = 'In this tree the order is the safety. ';

/**
 * Assesses one tree: how likely each cause is, what to do next and why, about how many minutes are left.
 * Never throws. Evidence that no cause allows leaves the prior, and says so in `conflict`.
 */
export function assessTree(tree: FaultTree, references: References, known: Known, options: AssessOptions): Assessment {
  const opened = openTree(tree, references, known, options);
  const { derived, model, evidence, contradiction, situation } = opened;
  const { state, road } = situation;
  const effort = options.effort ?? quick;
  const step = chooseNext(derived, model, references, situation, effort);
  const isReworkFirst = known.isWorsened && !known.did.includes(fromRepair);
  const next = isReworkFirst ? ({ kind: 'rework' } as const) : nameStep(derived, step);
  const writtenNode = findNode(tree, road.at(-1) ?? '');
  const mostStates = options.mostStates ?? 0;
  const value = mostStates > 0 ? priceOpened(opened, effort, mostStates) : undefined;
  const written = mostStates > 0 ? followOpened(opened) : undefined;
  return {
    causes: joinCauses(derived, state.belief),
    next,
    why: writeWhy(derived, next, step?.kind === 'check' ? step.check.id : '', situation),
    written: { node: writtenNode?.id ?? '', title: writtenNode?.title ?? '' },
    expectedMinutes: value?.expectedMinutes ?? Number.NaN,
    writtenMinutes: written?.expectedMinutes ?? Number.NaN,
    isExact: value?.isExact ?? false,
    conflict: describeConflict(derived, known.read, evidence, contradiction),
  };
}

/**
 * Nodes of the checks and paths without an answer, what tells most of the causes for its minutes first. What tells nothing is left out.
 */
export function rankChecks(
  tree: FaultTree,
  references: References,
  known: Known,
  options: Pick<AssessOptions, 'bench' | 'checks'>,
): readonly string[] {
  const { derived, model, situation } = openTree(tree, references, known, options);
  const screened = screenChecks(model, situation.state);
  return [...new Set(screened.flatMap(({ check }) => derived.checks[check]?.node.id ?? []))];
}

/** A tree with what is known weighed, before anything is chosen. */
export interface OpenedTree {
  readonly derived: TreeProblem;
  readonly model: PlanningModel;
  readonly evidence: readonly Evidence[];
  /** Where no cause allows all of the evidence, which then counts for nothing. */
  readonly contradiction: Contradiction | undefined;
  readonly words: KnownWords;
  readonly situation: Situation;
}

/** The state in which only what can be done with the instruments at hand is left to do. */
function withinReach({ derived, situation: { state } }: OpenedTree): PlanningState {
  return { ...state, done: state.done.map((mark, check) => (derived.checks[check]?.family === undefined ? 1 : mark)) };
}

/**
 * Expected minutes to a proven repair from here, over at most so many states of the plan; as the tree is written where its order is its
 * safety.
 */
export function priceOpened(
  opened: OpenedTree,
  effort: Effort,
  mostStates: number,
): Pick<PolicyValue, 'expectedMinutes' | 'isExact'> {
  if (opened.derived.tree.order === 'as-written') return { ...followOpened(opened), isExact: true };
  return evaluatePolicy(opened.model, withinReach(opened), effort, mostStates);
}

/** Minutes from here as the tree is written. */
function followOpened(opened: OpenedTree): WrittenValue {
  const { derived, model, words, situation } = opened;
  return followWritten(derived, model, withinReach(opened), situation.road.at(-1) ?? '', words);
}

/** Derives the problem and weighs what is known, once for all that is asked of it. */
export function openTree(
  tree: FaultTree,
  references: References,
  known: Known,
  { bench, checks }: Pick<AssessOptions, 'bench' | 'checks'>,
): OpenedTree {
  const lacking = listLacking(tree, known.read);
  const derived = deriveProblem(tree, references, {
    bench: lacking.size === 0 ? bench : { ...bench, lacking },
    goal: 'repair',
    isFaultless: false,
    repaired: known.did,
    isWorsened: known.isWorsened,
    checks: lacking.size === 0 ? checks : undefined,
  });
  const { problem } = derived;
  const evidence = collectEvidence(derived, known);
  const weighed = weighEvidence(problem, evidence);
  const usable = weighed.kind === 'posterior' ? evidence : [];
  const posterior = weighed.kind === 'posterior' ? weighed : weighEvidence(problem, []);
  const probabilities = posterior.kind === 'posterior' ? posterior.probabilities : new Float64Array();
  const model = buildModel(problem);
  const words = listKnownWords(tree, known.read);
  return {
    derived,
    model,
    evidence,
    contradiction: weighed.kind === 'contradiction' ? weighed.contradiction : undefined,
    words,
    situation: {
      state: startState(problem, model, probabilities, usable),
      road: walkRoad(tree, words, known.did),
      leads: leadsOf(tree, known.read),
      cleared: listCleared(tree, known.read),
      isMainsOutside: bench.isMainsOutside,
    },
  };
}

/** Everything known as evidence of the problem; answers and repairs that it does not know are left out. */
function collectEvidence({ problem }: TreeProblem, known: Known): readonly Evidence[] {
  const answers = known.read.flatMap(({ evidence }) => evidence);
  const repairs = known.did
    .filter((id) => problem.causes.some((cause) => cause.id === id))
    .map((cause): Evidence => ({ kind: 'repaired', cause }));
  return [...answers, ...repairs];
}

function joinCauses({ tree, problem }: TreeProblem, probabilities: Float64Array): readonly AssessedCause[] {
  const joined = new Map<string, AssessedCause>();
  problem.causes.forEach(({ id: causeId }, position) => {
    const node = hypothesisOf(tree, causeId);
    const id = node?.id ?? causeId;
    const probability = (joined.get(id)?.probability ?? 0) + (probabilities[position] ?? 0);
    const title = node?.title ?? (causeId === notListed ? notListedTitle : reworkTitle);
    joined.set(id, { id, title, probability, words: sayProbability(probability) });
  });
  return [...joined.values()].toSorted(
    (first, second) => second.probability - first.probability || (first.id < second.id ? -1 : 1),
  );
}

/** A cause less probable than this is ruled out: it is counted nowhere. Our judgement. */
const leastCounted = 0.005;

/**
 * The causes that are still open, the likeliest first: those of `tree` that a repair ends, without jumps, hand-overs and what is not
 * listed. Whatever says how many causes are left counts these.
 */
export function listOpenCauses(tree: FaultTree, causes: readonly AssessedCause[]): readonly AssessedCause[] {
  return causes.filter(({ id, probability }) => probability >= leastCounted && findNode(tree, id)?.kind === 'cause');
}

function sayProbability(probability: number): AssessedCause['words'] {
  if (probability >= 0.5) return 'most likely';
  if (probability >= 0.2) return 'likely';
  return probability >= 0.05 ? 'possible' : 'unlikely';
}

function nameStep({ tree }: TreeProblem, step: ChosenStep): NextStep {
  if (step === undefined) return { kind: 'stop' };
  if (step.kind === 'check') {
    const { node, stage } = step.check;
    const title = stage === undefined ? node.title : `${node.title}: ${stage.title}`;
    return { kind: 'check', node: node.id, stage: stage?.id, title };
  }
  if (step.id === fromRepair) return { kind: 'rework' };
  const node = step.kind === 'end' ? findNode(tree, step.id) : hypothesisOf(tree, step.id);
  if (node === undefined || isStep(node)) return { kind: 'stop' };
  return { kind: node.kind === 'cause' ? 'repair' : node.kind, node: node.id, title: node.title };
}

function writeWhy(derived: TreeProblem, next: NextStep, checkId: string, { state, leads }: Situation): string {
  switch (next.kind) {
    case 'check':
      return `${derived.tree.order === 'as-written' ? keptOrder : ''}${explainCheck(derived, checkId, state.belief)}`;
    case 'repair':
      if (leads.has(next.node)) return 'An answer of yours points here, and nothing else is as likely.';
      return 'No check left would pay for its minutes before this repair is tried.';
    case 'elsewhere':
      return 'What is known points to another tree; it opens with these readings.';
    case 'hand-over':
      return 'What is known points outside what these pages can lead you through.';
    case 'rework':
      return 'It changed with the last repair, so what that repair touched comes first.';
    case 'stop':
      return 'Nothing left here would pay for its minutes: stopping, or a second pair of eyes, is the better plan.';
  }
}

/**
 * Says which answers contradict each other, or hardly fit together, and which to look at again first; undefined where all is well.
 * `contradiction` names entries that cannot be true together at all; without it findConflict looks for those that hardly can.
 */
export function describeConflict(
  { tree, problem }: TreeProblem,
  read: readonly ReadAnswer[],
  evidence: readonly Evidence[],
  contradiction?: Pick<Contradiction, 'entries' | 'doubtful'>,
): string | undefined {
  const found = contradiction ?? findConflict(problem, evidence);
  if (found === undefined) return undefined;
  const name = (entry: number): string => {
    const item = evidence[entry];
    const given = read.find((answer) => item !== undefined && answer.evidence.includes(item));
    const title = tree.nodes.find(({ id }) => id === given?.node)?.title;
    return given === undefined || title === undefined ? 'a repair that did not help' : `“${title}” ${given.said}`;
  };
  const isExact = contradiction !== undefined;
  const names = found.entries.slice(0, 2).map(name).join(' and ');
  const head = isExact ? 'These answers contradict each other' : 'These answers hardly fit together';
  return `${head}: ${names}. Look again at ${name(found.doubtful)} first; if both are right, there may be two faults.`;
}

/** A cause less probable than this is not spoken of as one that a check separates from another. */
const leastOpen = 0.05;
/** Two causes are told apart by a check whose rows for them differ by at least this much: half the sum of all differences, 0 to 1. */
const leastDifference = 0.5;

/**
 * Says in one sentence what a check would tell: the two likeliest causes that it separates, both open and with rows that differ by at
 * least a half; else the likeliest one that it tells from the rest together; else what it is good for.
 * @example "Separates “Regulator dead” from “Reservoir capacitor dried out”."
 */
export function explainCheck(
  { tree, problem }: Pick<TreeProblem, 'tree' | 'problem'>,
  checkId: string,
  probabilities: Float64Array,
): string {
  const check = problem.checks.find(({ id }) => id === checkId);
  if (check === undefined) return '';
  // A second fault counts with its cause.
  const titles = problem.causes.map(({ id }) => (id === notListed ? undefined : hypothesisOf(tree, id)?.title));
  const named = [...new Set(titles)]
    .filter((title) => title !== undefined)
    .map((title) => ({ title, ...sumUp([title]) }));
  const open = named
    .filter(({ probability }) => probability >= leastOpen)
    .toSorted((first, second) => second.probability - first.probability);
  const pairs = open.flatMap((first, place) =>
    open
      .slice(place + 1)
      .filter((second) => differ(first.row, second.row) >= leastDifference)
      .map((second) => ({ first, second, weight: first.probability * second.probability })),
  );
  const [pair] = pairs.toSorted((one, other) => other.weight - one.weight);
  if (pair !== undefined) return `Separates “${pair.first.title}” from “${pair.second.title}”.`;
  const single = open.find(
    ({ title, row }) => differ(row, sumUp(titles.filter((other) => other !== title)).row) >= leastDifference,
  );
  if (single !== undefined) return `Tells most about “${single.title}”.`;
  const all = sumUp(titles).row;
  return named.some(({ row }) => differ(row, all) > 1e-6)
    ? 'Rules out some of what is less likely.'
    : 'Must come before what tells most.';

  /** Probability of the causes with one of these titles, and the mean of their rows by it. */
  function sumUp(wanted: readonly (string | undefined)[]): {
    readonly probability: number;
    readonly row: readonly number[];
  } {
    const isWanted = new Set(wanted);
    let probability = 0;
    const row = new Array<number>(check?.outcomes.length ?? 0).fill(0);
    titles.forEach((title, cause) => {
      if (!isWanted.has(title)) return;
      const share = probabilities[cause] ?? 0;
      probability += share;
      check?.likelihood[cause]?.forEach((value, outcome) => {
        row[outcome] = (row[outcome] ?? 0) + share * value;
      });
    });
    return { probability, row: row.map((value) => (probability > 0 ? value / probability : 0)) };
  }
}

/** How far two rows differ, 0 to 1: half the sum of the differences (total variation). */
function differ(first: readonly number[], second: readonly number[]): number {
  return first.reduce((sum, value, place) => sum + Math.abs(value - (second[place] ?? 0)), 0) / 2;
}

/** What one more instrument would save on this unit. */
export interface InstrumentSaving {
  /** Slug of the family. */
  readonly family: string;
  readonly title: string;
  /** Expected minutes less to a proved repair; about. */
  readonly savedMinutes: number;
}

/** Less than this is within the doubt of the estimate. */
const leastSavingMinutes = 2;

/**
 * Says what each family of instruments that is not at hand would save, the most saving first. Empty where everything is at hand, or
 * where nothing would save two minutes. Cost: `mostStates` states for each family.
 */
export function measureInstruments(
  tree: FaultTree,
  references: References,
  known: Known,
  bench: Bench,
  mostStates: number,
): readonly InstrumentSaving[] {
  const { families } = bench;
  if (families === undefined) return [];
  const price = (owned: ReadonlySet<string>): number =>
    priceOpened(openTree(tree, references, known, { bench: { ...bench, families: owned } }), quick, mostStates)
      .expectedMinutes;
  const now = price(families);
  const missing = new Set(tree.nodes.flatMap((node) => (isStep(node) ? node.instruments : [])));
  return [...missing]
    .filter((family) => !isAtHand(family, bench))
    .map((family) => ({
      family,
      title: references.instruments.get(family)?.title ?? family,
      savedMinutes: now - price(new Set([...families, family])),
    }))
    .filter(({ savedMinutes }) => savedMinutes >= leastSavingMinutes)
    .toSorted((first, second) => second.savedMinutes - first.savedMinutes || (first.family < second.family ? -1 : 1));
}

import type { FaultTree } from '../../model/fault-tree.ts';
import type { References } from '../../model/library.ts';
import { findNode } from '../../model/node.ts';
import { type Effort, quick } from '../choose-action.ts';
import { evaluatePolicy } from '../evaluate-policy.ts';
import { buildModel, startState } from '../model.ts';
import type { Evidence } from '../problem.ts';
import { weighEvidence } from '../evidence.ts';
import type { Bench } from './bench.ts';
import { chooseNext } from './choose-next.ts';
import { deriveProblem, type TreeProblem } from './derive-problem.ts';
import { describeConflict } from './describe-conflict.ts';
import { explainCheck } from './explain-check.ts';
import { followWritten } from './follow-written.ts';
import { fromRepair, hypothesisOf, notListed } from './hypotheses.ts';
import { listKnownWords } from './known-words.ts';
import type { ReadAnswer } from './read-answer.ts';
import { walkRoad } from './walk-road.ts';

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
}

const reworkTitle = 'Something that the last repair left behind';
const notListedTitle = 'Something not listed here';

/**
 * Assesses one tree: how likely each cause is, what to do next and why, about how many minutes are left.
 * Never throws. Evidence that no cause allows leaves the prior, and says so in `conflict`.
 */
export function assessTree(tree: FaultTree, references: References, known: Known, options: AssessOptions): Assessment {
  const derived = deriveProblem(tree, references, {
    bench: options.bench,
    goal: 'repair',
    isFaultless: false,
    repaired: known.did,
    isWorsened: known.isWorsened,
  });
  const { problem } = derived;
  const evidence = collectEvidence(derived, known);
  const weighed = weighEvidence(problem, evidence);
  const usable = weighed.kind === 'posterior' ? evidence : [];
  const posterior = weighed.kind === 'posterior' ? weighed : weighEvidence(problem, []);
  const probabilities = posterior.kind === 'posterior' ? posterior.probabilities : new Float64Array();
  const model = buildModel(problem);
  const words = listKnownWords(tree, known.read);
  const road = walkRoad(tree, words);
  const writtenNode = findNode(tree, road.at(-1) ?? '');
  const effort = options.effort ?? quick;
  const step = chooseNext(
    derived,
    model,
    references,
    { evidence: usable, probabilities, road, isMainsOutside: options.bench.isMainsOutside },
    effort,
  );
  const mostStates = options.mostStates ?? 0;
  const missing = derived.checks.filter(({ family }) => family === undefined).map(({ id }) => id);
  const state = startState(problem, model, probabilities, usable, missing);
  const value = mostStates > 0 ? evaluatePolicy(model, state, effort, mostStates) : undefined;
  const written = mostStates > 0 ? followWritten(derived, model, state, writtenNode?.id ?? '', words) : undefined;
  const isReworkFirst = known.isWorsened && !known.did.includes(fromRepair);
  const next = isReworkFirst ? ({ kind: 'rework' } as const) : nameStep(derived, step);
  return {
    causes: joinCauses(derived, probabilities),
    next,
    why: writeWhy(derived, next, step?.id, probabilities),
    written: { node: writtenNode?.id ?? '', title: writtenNode?.title ?? '' },
    expectedMinutes: value?.expectedMinutes ?? Number.NaN,
    writtenMinutes: written?.expectedMinutes ?? Number.NaN,
    isExact: value?.isExact ?? false,
    conflict: describeConflict(
      derived,
      known.read,
      evidence,
      weighed.kind === 'contradiction' ? weighed.contradiction : undefined,
    ),
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

function sayProbability(probability: number): AssessedCause['words'] {
  if (probability >= 0.5) return 'most likely';
  if (probability >= 0.2) return 'likely';
  return probability >= 0.05 ? 'possible' : 'unlikely';
}

function nameStep({ tree, checks }: TreeProblem, step: ReturnType<typeof chooseNext>): NextStep {
  if (step === undefined) return { kind: 'stop' };
  if (step.kind === 'check') {
    const check = checks.find(({ id }) => id === step.id);
    if (check === undefined) return { kind: 'stop' };
    return {
      kind: 'check',
      node: check.node.id,
      stage: check.stage?.id,
      title: check.stage === undefined ? check.node.title : `${check.node.title}: ${check.stage.title}`,
    };
  }
  if (step.id === fromRepair) return { kind: 'rework' };
  const node = hypothesisOf(tree, step.id);
  if (node === undefined) return { kind: 'stop' };
  return { kind: node.kind === 'cause' ? 'repair' : node.kind, node: node.id, title: node.title };
}

function writeWhy(
  derived: TreeProblem,
  next: NextStep,
  stepId: string | undefined,
  probabilities: Float64Array,
): string {
  switch (next.kind) {
    case 'check':
      return explainCheck(derived, stepId ?? '', probabilities);
    case 'repair':
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

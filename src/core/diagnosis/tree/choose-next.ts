import { cautionsOf, findNode } from '../../model/node.ts';
import type { References } from '../../model/library.ts';
import type { Effort } from '../choose-action.ts';
import { suggestNext } from '../plan-problem.ts';
import { measureEntropyBits, type PlanningModel, sumSetupMinutes } from '../model.ts';
import type { Evidence } from '../problem.ts';
import { measureInformationBits } from '../screen-checks.ts';
import type { TreeProblem } from './derive-problem.ts';
import { hypothesisOf } from './hypotheses.ts';
import type { TreeCheck } from './tree-checks.ts';

/** The step to take, by id of the problem; undefined where stopping is the better plan. */
export type ChosenStep = { readonly kind: 'check' | 'repair'; readonly id: string } | undefined;

export interface Situation {
  readonly evidence: readonly Evidence[];
  readonly probabilities: Float64Array;
  /** Nodes that the tree as written has led to, its next one last. A stop caution met there has been read. */
  readonly road: readonly string[];
  readonly isMainsOutside: boolean;
}

/** With this much certainty a repair that leaves damage need not wait for one more check. Our judgement. */
const sureEnough = 0.9;
/** Share of the doubt that a harmless check must take away to be worth doing before damage. Our judgement. */
const worthAskingShare = 0.25;
/** Another end of the tree is suggested when it is more likely than not. */
const likelierThanNot = 0.5;

/**
 * Chooses the next step by the planner, and then keeps what minutes do not show:
 * a check under a stop caution is never pulled forward: until the written road, or an answer, has met that caution, the tree's own next
 * step comes first; what must come first comes first; only instruments at hand are planned with;
 * nothing that leaves damage goes before a harmless check that tells as much, and the tree is left for another end only
 * when that is likelier than not.
 */
export function chooseNext(
  tree: TreeProblem,
  model: PlanningModel,
  references: References,
  situation: Situation,
  effort: Effort,
): ChosenStep {
  const { checks } = tree;
  const done = new Set(situation.evidence.flatMap((item) => (item.kind === 'repaired' ? [] : [item.check])));
  const missing = new Set(checks.filter(({ family }) => family === undefined).map(({ id }) => id));
  const barred = new Set(
    checks
      .filter(({ id, after }) => missing.has(id) || after.some((first) => missing.has(first) && !done.has(first)))
      .map(({ id }) => id),
  );
  const isMet = readStops(tree, references, situation, done);
  const written = checks.find(({ id, node }) => node.id === situation.road.at(-1) && !done.has(id) && !barred.has(id));
  const choose = (without: ReadonlySet<string>): ChosenStep => {
    const wanted = chooseFreely(tree, model, situation, effort, done, without);
    if (wanted?.kind !== 'check') return wanted;
    const check = checks.find(({ id }) => id === wanted.id);
    if (check === undefined) return undefined;
    const first = firstOf(tree, check, done);
    if (isMet(first)) return { kind: 'check', id: first.id };
    if (written !== undefined) return { kind: 'check', id: firstOf(tree, written, done).id };
    // The road has come to an end: nothing is left but what needs no new stop caution.
    const closed = checks.filter(
      (one) => !isMet(one) || one.after.some((id) => checks.some(({ node }) => node.id === id && !isMet({ node }))),
    );
    const open = new Set([...without, ...closed.map(({ id }) => id)]);
    return open.size > without.size ? choose(open) : undefined;
  };
  return choose(barred);
}

/** The planner's step with what concerns damage and other ends, whatever cautions it lies under. */
function chooseFreely(
  tree: TreeProblem,
  model: PlanningModel,
  situation: Situation,
  effort: Effort,
  done: ReadonlySet<string>,
  barred: ReadonlySet<string>,
): ChosenStep {
  const { problem, checks } = tree;
  const suggestion = suggestNext(problem, model, situation.evidence, effort, [...barred]);
  if (suggestion.kind === 'contradiction' || suggestion.next === null || 'probe' in suggestion.next) return undefined;
  const toStep = (check: TreeCheck): ChosenStep => ({ kind: 'check', id: check.id });
  if ('check' in suggestion.next) {
    const { check: id } = suggestion.next;
    const check = checks.find((candidate) => candidate.id === id);
    if (check === undefined) return undefined;
    const gentler = check.leaves === 'nothing' ? undefined : findHarmless(tree, model, situation, done, barred);
    return toStep(gentler ?? check);
  }
  const { repair: id } = suggestion.next;
  const cause = problem.causes.findIndex((candidate) => candidate.id === id);
  const probability = situation.probabilities[cause] ?? 0;
  const node = hypothesisOf(tree.tree, id);
  const mustBeSure = node !== undefined && (node.kind !== 'cause' || node.repair?.leaves === 'damage');
  const isSure = probability >= (node?.kind === 'cause' ? sureEnough : likelierThanNot);
  if (!mustBeSure || isSure) return { kind: 'repair', id };
  const harmless = findHarmless(tree, model, situation, done, barred, cause);
  return harmless === undefined ? { kind: 'repair', id } : toStep(harmless);
}

/** Whether every stop caution of a check has been met on the written road or with an answer. */
function readStops(
  { tree, checks }: TreeProblem,
  references: References,
  { road, isMainsOutside }: Situation,
  done: ReadonlySet<string>,
): (check: Pick<TreeCheck, 'node'>) => boolean {
  const stopsOf = (id: string): readonly string[] => {
    const node = findNode(tree, id);
    return node === undefined
      ? []
      : cautionsOf(node, references)
          .filter(({ severity }) => severity === 'stop')
          .map(({ slug }) => slug);
  };
  const answered = checks.filter(({ id }) => done.has(id)).map(({ node }) => node.id);
  const met = new Set([...road, ...answered].flatMap(stopsOf));
  if (isMainsOutside) met.add('mains');
  return ({ node }) => stopsOf(node.id).every((slug) => met.has(slug));
}

/** The check itself, or the first of those that must come before it and has not been done. */
function firstOf({ checks }: TreeProblem, check: TreeCheck, done: ReadonlySet<string>): TreeCheck {
  const isDone = (node: string): boolean => checks.some((one) => one.node.id === node && done.has(one.id));
  return checks.find((candidate) => check.after.includes(candidate.node.id) && !isDone(candidate.node.id)) ?? check;
}

/**
 * The check without traces that tells most per minute, and enough, about whether it is this cause;
 * about all causes where none is named. Undefined where there is none.
 */
function findHarmless(
  { checks }: TreeProblem,
  model: PlanningModel,
  { probabilities }: Situation,
  done: ReadonlySet<string>,
  barred: ReadonlySet<string>,
  cause?: number,
): TreeCheck | undefined {
  const own = cause === undefined ? 0 : (probabilities[cause] ?? 0);
  const doubtBits = measureEntropyBits(cause === undefined ? [...probabilities] : [own, 1 - own]);
  let best: TreeCheck | undefined;
  let bestRate = 0;
  checks.forEach((check, position) => {
    if (check.leaves !== 'nothing' || done.has(check.id) || barred.has(check.id)) return;
    const columns = model.likelihoods[position] ?? new Float64Array();
    const outcomes = model.outcomeCounts[position] ?? 0;
    const bits =
      cause === undefined
        ? measureInformationBits(probabilities, columns, model.rowEntropies[position] ?? new Float64Array(), outcomes)
        : tellOf(cause, probabilities, columns, outcomes);
    if (bits < worthAskingShare * doubtBits) return;
    const minutes =
      (model.checkMinutes[position] ?? 0) + sumSetupMinutes(model.setupMinutes, model.checkSetups[position] ?? 0, 0);
    const rate = bits / Math.max(0.5, minutes);
    if (rate > bestRate) {
      best = check;
      bestRate = rate;
    }
  });
  return best;
}

/** Bits that a check tells about "this cause or another". */
function tellOf(cause: number, probabilities: Float64Array, columns: Float64Array, outcomes: number): number {
  const count = probabilities.length;
  const own = probabilities[cause] ?? 0;
  let bits = measureEntropyBits([own, 1 - own]);
  for (let outcome = 0; outcome < outcomes; outcome++) {
    let all = 0;
    for (let other = 0; other < count; other++) {
      all += (probabilities[other] ?? 0) * (columns[outcome * count + other] ?? 0);
    }
    if (all <= 0) continue;
    const after = (own * (columns[outcome * count + cause] ?? 0)) / all;
    bits -= all * measureEntropyBits([after, 1 - after]);
  }
  return bits;
}

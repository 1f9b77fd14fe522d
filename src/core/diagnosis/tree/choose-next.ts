import { cautionsOf } from '../../model/node-cautions.ts';
import type { References } from '../../model/library.ts';
import type { Effort } from '../effort.ts';
import { suggestNext } from '../plan-problem.ts';
import { measureEntropyBits, type PlanningModel, sumSetupMinutes } from '../planning-model.ts';
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
  /** Nodes that the tree as written has led to: only there a step under a stop caution may be suggested. */
  readonly reached: ReadonlySet<string>;
}

/** With this much certainty a repair that leaves damage need not wait for one more check. Our judgement. */
const SURE_ENOUGH = 0.9;
/** What a harmless check must tell about the part at least, in bits, to be worth doing before damage. Our judgement. */
const WORTH_ASKING_BITS = 0.05;
/** Another end of the tree is suggested when it is more likely than not. */
const LIKELIER_THAN_NOT = 0.5;

/**
 * Chooses the next step by the planner, and then keeps what minutes do not show:
 * nothing under a stop caution is pulled forward, what must come first comes first, only instruments at hand are planned with,
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
  const done = new Set(situation.evidence.flatMap((item) => (item.kind === 'repaired' ? [] : [item.check])));
  const barred = new Set(listBarred(tree, references, situation.reached, done));
  const { problem } = tree;
  const suggestion = suggestNext(problem, model, situation.evidence, effort, [...barred]);
  if (suggestion.kind === 'contradiction' || suggestion.next === null) return undefined;
  if ('check' in suggestion.next) {
    const { check: id } = suggestion.next;
    const check = tree.checks.find((candidate) => candidate.id === id);
    if (check === undefined) return undefined;
    const gentler = check.leaves === 'nothing' ? undefined : findHarmless(tree, model, situation, done, barred);
    return { kind: 'check', id: firstOf(tree, gentler ?? check, done).id };
  }
  if ('probe' in suggestion.next) return undefined;
  const { repair: id } = suggestion.next;
  const cause = problem.causes.findIndex((candidate) => candidate.id === id);
  const probability = situation.probabilities[cause] ?? 0;
  const node = hypothesisOf(tree.tree, id);
  const mustBeSure = node !== undefined && (node.kind !== 'cause' || node.repair?.leaves === 'damage');
  const isSure = probability >= (node?.kind === 'cause' ? SURE_ENOUGH : LIKELIER_THAN_NOT);
  if (!mustBeSure || isSure) return { kind: 'repair', id };
  const harmless = findHarmless(tree, model, situation, done, barred, cause);
  return harmless === undefined ? { kind: 'repair', id } : { kind: 'check', id: firstOf(tree, harmless, done).id };
}

/** Checks that must not be suggested: no instrument, or a stop caution on the check or on what must come before it. */
function listBarred(
  { checks }: TreeProblem,
  references: References,
  reached: ReadonlySet<string>,
  done: ReadonlySet<string>,
): readonly string[] {
  const isClosed = (check: TreeCheck): boolean =>
    !done.has(check.id) &&
    (check.family === undefined ||
      (!reached.has(check.node.id) && cautionsOf(check.node, references).some(({ severity }) => severity === 'stop')));
  const closed = new Set(checks.filter(isClosed).map(({ id }) => id));
  return checks.filter((check) => closed.has(check.id) || check.after.some((id) => closed.has(id))).map(({ id }) => id);
}

/** The check itself, or the first of those that must come before it and has not been done. */
function firstOf({ checks }: TreeProblem, check: TreeCheck, done: ReadonlySet<string>): TreeCheck {
  return checks.find((candidate) => check.after.includes(candidate.id) && !done.has(candidate.id)) ?? check;
}

/**
 * The check without traces that tells most per minute, at least WORTH_ASKING_BITS, about whether it is this cause;
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
    if (bits < WORTH_ASKING_BITS) return;
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

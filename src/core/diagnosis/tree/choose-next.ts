import { cautionsOf, findNode, opensCase, isStep } from '../../model/node.ts';
import type { References } from '../../model/library.ts';
import { chooseAction, type Effort } from '../choose-action.ts';
import { measureEntropyBits, type PlanningModel, type PlanningState, sumSetupMinutes } from '../model.ts';
import { measureInformationBits } from '../screen-checks.ts';
import { hypothesisOf, type TreeProblem } from './derive-problem.ts';
import type { TreeCheck } from './tree-checks.ts';

/**
 * The step to take; a repair by its cause's id in the problem, an end that no repair ends by its node's. Undefined where stopping is the
 * better plan.
 */
export type ChosenStep =
  | { readonly kind: 'check'; readonly check: TreeCheck }
  | { readonly kind: 'repair' | 'end'; readonly id: string }
  | undefined;

export interface Situation {
  readonly state: PlanningState;
  /** Nodes that the tree as written has led to, its next one last. A stop caution met there has been read. */
  readonly road: readonly string[];
  /** Nodes that the answers lead to as the tree is written. */
  readonly leads: ReadonlySet<string | undefined>;
  /** Ids of checks in a stretch of a signal path that an answer has cleared: they are not asked for any more. */
  readonly cleared: ReadonlySet<string>;
  readonly isMainsOutside: boolean;
}

/** With this much certainty a repair that leaves damage need not wait for one more check. Our judgement. */
const sureEnough = 0.9;
/** Share of the doubt that a harmless check must take away to be worth doing before damage. Our judgement. */
const worthAskingShare = 0.25;
/** Another end of the tree is suggested at once when it is as likely as this; before, a check that tells enough comes first. Our judgement. */
const likelyEnough = 0.8;
/** A cause that an answer leads to is a finding where it is the likeliest, and at least this likely. Our judgement. */
const likelyFinding = 0.2;
/** A look or reading with the case closed and of at most these minutes comes before the first step that opens the case … */
const quickMinutes = 2;
/** … where it tells at least this much. Our judgement. */
const worthAskingBits = 0.1;

/**
 * Chooses the next step by the planner, and then keeps what minutes do not show:
 * a cause that an answer leads to is a finding where it is the likeliest;
 * a check under a stop caution is never pulled forward: until the written road, or an answer, has met that caution, the tree's own next
 * step comes first; what must come first comes first; only instruments at hand are planned with;
 * nothing that leaves damage goes before a harmless check that tells as much, the tree is left for another end only when that is likely
 * or no check tells enough, and what is quick with the case closed comes before the case is opened.
 * Of a tree whose order is its safety it takes the step that the tree itself comes to, also where an instrument for it is missing.
 */
export function chooseNext(
  tree: TreeProblem,
  model: PlanningModel,
  references: References,
  situation: Situation,
  effort: Effort,
): ChosenStep {
  if (tree.tree.order === 'as-written') return keepOrder(tree, situation);
  const { checks } = tree;
  const found = findFound(tree, situation);
  if (found !== undefined) return { kind: 'repair', id: found };
  const done = listDone(tree, situation.state);
  const begun = new Set(checks.filter(({ id }) => done.has(id)).map(({ node }) => node.id));
  const missing = new Set(checks.filter(({ family }) => family === undefined).map(({ node }) => node.id));
  const isOutOfReach = ({ node, after }: TreeCheck): boolean =>
    missing.has(node.id) || after.some((first) => missing.has(first) && !begun.has(first));
  const barred = new Set([...situation.cleared, ...checks.filter(isOutOfReach).map(({ id }) => id)]);
  const isMet = readStops(tree, references, situation, done);
  const written = checks.find(({ id, node }) => node.id === situation.road.at(-1) && !done.has(id) && !barred.has(id));
  const choose = (without: ReadonlySet<string>): ChosenStep => {
    const wanted = chooseFreely(tree, model, situation.state, effort, without);
    if (wanted?.kind !== 'check') return wanted;
    const first = firstOf(tree, wanted.check, done);
    if (isMet(first))
      return { kind: 'check', check: findQuick(tree, model, situation.state, first, done, without, isMet) ?? first };
    if (written !== undefined) return { kind: 'check', check: firstOf(tree, written, done) };
    // The road has come to an end: nothing is left but what needs no new stop caution.
    const closed = checks.filter(
      (one) => !isMet(one) || one.after.some((id) => checks.some(({ node }) => node.id === id && !isMet({ node }))),
    );
    const open = new Set([...without, ...closed.map(({ id }) => id)]);
    const gentle = open.size > without.size ? choose(open) : undefined;
    // After a repair that did not cure, the page of the check asks for its caution itself.
    return gentle ?? (isAfterRepair(tree, situation) ? { kind: 'check', check: first } : undefined);
  };
  return choose(barred);
}

/** The step that the tree as written comes to; undefined where it ends at a repair that did not cure. */
function keepOrder({ tree, problem, checks }: TreeProblem, { road, state }: Situation): ChosenStep {
  const node = findNode(tree, road.at(-1) ?? '');
  if (node === undefined) return undefined;
  if (isStep(node)) {
    const own = checks.flatMap((check, position) => (check.node.id === node.id ? [{ check, position }] : []));
    const open = own.find(({ position }) => state.done[position] !== 1) ?? own[0];
    return open && { kind: 'check', check: open.check };
  }
  if (node.kind !== 'cause') return { kind: 'end', id: node.id };
  const position = problem.causes.findIndex(({ id }) => id === node.id);
  return state.tried[position] === 1 ? undefined : { kind: 'repair', id: node.id };
}

/** Id of the cause that an answer leads to, where it is the likeliest and its repair leaves no damage or is sure enough. */
function findFound({ tree, problem }: TreeProblem, { state, leads }: Situation): string | undefined {
  const likeliest = state.belief.indexOf(Math.max(...state.belief));
  const id = problem.causes[likeliest]?.id ?? '';
  const probability = state.belief[likeliest] ?? 0;
  const node = hypothesisOf(tree, id);
  if (node?.kind !== 'cause' || !leads.has(node.id) || state.tried[likeliest] === 1) return undefined;
  const least = node.repair?.leaves === 'damage' ? sureEnough : likelyFinding;
  return probability >= least ? id : undefined;
}

/** The planner's step with what concerns damage and other ends, whatever cautions it lies under. */
function chooseFreely(
  tree: TreeProblem,
  model: PlanningModel,
  state: PlanningState,
  effort: Effort,
  barred: ReadonlySet<string>,
): ChosenStep {
  const { problem, checks } = tree;
  const held = holdBack(state, checks, barred);
  const { action } = chooseAction(model, held, effort);
  if (action.kind === 'stop') return undefined;
  if (action.kind === 'check') {
    const check = checks[action.check];
    if (check === undefined || check.leaves === 'nothing') return check && { kind: 'check', check };
    return { kind: 'check', check: findHarmless(tree, model, held) ?? check };
  }
  const { cause } = action;
  const id = problem.causes[cause]?.id ?? '';
  const probability = state.belief[cause] ?? 0;
  const node = hypothesisOf(tree.tree, id);
  const mustBeSure = node !== undefined && (node.kind !== 'cause' || node.repair?.leaves === 'damage');
  const isSure = probability >= (node?.kind === 'cause' ? sureEnough : likelyEnough);
  const harmless = mustBeSure && !isSure ? findHarmless(tree, model, held, cause) : undefined;
  return harmless === undefined ? { kind: 'repair', id } : { kind: 'check', check: harmless };
}

/** Whether the road ends at a cause whose repair did not cure. */
function isAfterRepair({ problem }: TreeProblem, { state, road }: Situation): boolean {
  return problem.causes.some(({ id }, position) => id === road.at(-1) && state.tried[position] === 1);
}

/**
 * Where `wanted` is the first step to open the case: what tells most of the quick checks with it closed, with their own before them done
 * and no stop caution to meet first. Undefined where none tells enough.
 */
function findQuick(
  { checks }: TreeProblem,
  model: PlanningModel,
  { belief }: PlanningState,
  wanted: TreeCheck,
  done: ReadonlySet<string>,
  barred: ReadonlySet<string>,
  isMet: (check: Pick<TreeCheck, 'node'>) => boolean,
): TreeCheck | undefined {
  if (!opensCase(wanted.node) || checks.some(({ id, node }) => done.has(id) && opensCase(node))) return undefined;
  let best: TreeCheck | undefined;
  let most = worthAskingBits;
  checks.forEach((check, position) => {
    const { node, after, leaves } = check;
    const isQuick = node.kind === 'check' && node.minutes + node.waitMinutes <= quickMinutes && leaves === 'nothing';
    if (!isQuick || opensCase(node) || done.has(check.id) || barred.has(check.id) || !isMet(check)) return;
    if (after.some((first) => !done.has(first))) return;
    const bits = measureInformationBits(
      belief,
      model.likelihoods[position] ?? new Float64Array(),
      model.rowEntropies[position] ?? new Float64Array(),
      model.outcomeCounts[position] ?? 0,
    );
    if (bits < most) return;
    best = check;
    most = bits;
  });
  return best;
}

/** Ids of the checks that are done. */
function listDone({ checks }: TreeProblem, { done }: PlanningState): ReadonlySet<string> {
  return new Set(checks.filter((_, position) => done[position] === 1).map(({ id }) => id));
}

/** The state with some checks out of reach: the planner takes them as done. */
function holdBack(state: PlanningState, checks: readonly TreeCheck[], without: ReadonlySet<string>): PlanningState {
  return { ...state, done: state.done.map((mark, position) => (without.has(checks[position]?.id ?? '') ? 1 : mark)) };
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
          .filter(({ severity }) => severity === 'danger')
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
  { belief, done }: PlanningState,
  cause?: number,
): TreeCheck | undefined {
  const own = cause === undefined ? 0 : (belief[cause] ?? 0);
  const doubtBits = measureEntropyBits(cause === undefined ? [...belief] : [own, 1 - own]);
  let best: TreeCheck | undefined;
  let bestRate = 0;
  checks.forEach((check, position) => {
    if (check.leaves !== 'nothing' || done[position] === 1) return;
    const columns = model.likelihoods[position] ?? new Float64Array();
    const outcomes = model.outcomeCounts[position] ?? 0;
    const bits =
      cause === undefined
        ? measureInformationBits(belief, columns, model.rowEntropies[position] ?? new Float64Array(), outcomes)
        : tellOf(cause, belief, columns, outcomes);
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

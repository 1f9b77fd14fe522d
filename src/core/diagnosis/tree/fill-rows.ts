import type { FaultTree, SignalPath, Stage, TreeNode } from '../../model/fault-tree.ts';
import { reachableFrom, stagesUpTo } from '../../model/node.ts';
import type { ProblemCause } from '../problem.ts';
import { bringerOf, hypothesisOf } from './hypotheses.ts';
import type { TreeCheck } from './tree-checks.ts';

type Row = readonly number[];

/**
 * What a tree says itself of P(outcome | cause), for every check (outer) and cause (inner), rows that sum to one:
 * 1. what the cause shows at the check (`shows`), any of several equally: they share the check's reliability r, the others 1 − r;
 * 2. else the outcomes that lead on to the cause, where the check lies on a road from the start to it, in the same way;
 * undefined where it says nothing. A stage of a signal path is bad where the cause lies before it and good else.
 * `isFaultless` puts r at 1. A second fault shows what its bringer and it show, in equal parts, as no answer says which came first.
 */
export function readRows(
  tree: FaultTree,
  checks: readonly TreeCheck[],
  causes: readonly ProblemCause[],
  isFaultless: boolean,
): readonly (readonly (Row | undefined)[])[] {
  const reached = new Map(tree.nodes.map(({ id }) => [id, reachableFrom(tree, id)]));
  return checks.map((check) => {
    const reliability = isFaultless ? 1 : check.reliability;
    return causes.map(({ id }): Row | undefined => {
      const own = rowOf(check, hypothesisOf(tree, id), reached, reliability);
      const by = bringerOf(id);
      if (by === undefined) return own;
      const bringers = rowOf(check, hypothesisOf(tree, by), reached, reliability);
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

function rowOf(
  check: TreeCheck,
  cause: TreeNode | undefined,
  reached: ReadonlyMap<string, ReadonlySet<string>>,
  reliability: number,
): Row | undefined {
  if (cause === undefined || !('shows' in cause)) return undefined;
  const { node, stage } = check;
  const shown = Object.hasOwn(cause.shows, node.id) ? (cause.shows[node.id] ?? []) : [];
  if (node.kind === 'path') {
    return stage === undefined ? undefined : rowOfStage(node, stage, cause.id, shown, reached, reliability);
  }
  const leading = node.outcomes.filter(({ to }) => reached.get(to)?.has(cause.id) === true).flatMap(({ when }) => when);
  const likely = new Set(shown.length > 0 ? shown : leading);
  const count = check.words.filter((word) => likely.has(word)).length;
  return count === 0 ? undefined : share(check.words, likely, count, reliability);
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
  cause: string,
  shown: readonly string[],
  reached: ReadonlyMap<string, ReadonlySet<string>>,
  reliability: number,
): Row | undefined {
  const firstBad = shown.length > 0 ? shown : roadsThrough(path, cause, reached);
  const known = firstBad.filter((word) => word === 'good' || path.stages.some(({ id }) => id === word));
  if (known.length === 0) return undefined;
  const before = stagesUpTo(path, stage.id);
  const bad = known.filter((word) => before.has(word)).length / known.length;
  const shownBad = reliability * bad + (1 - reliability) * (1 - bad);
  return [1 - shownBad, shownBad];
}

/** Stages whose fault leads to the cause, and `good` where the end of the path does. */
function roadsThrough(
  path: SignalPath,
  cause: string,
  reached: ReadonlyMap<string, ReadonlySet<string>>,
): readonly string[] {
  return [
    ...path.stages.filter(({ fault }) => reached.get(fault)?.has(cause) === true).map(({ id }) => id),
    ...(reached.get(path.good)?.has(cause) === true ? ['good'] : []),
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

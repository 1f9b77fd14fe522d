/**
 * What the shipped trees hold: node tests/bench/library.ts
 * Checks, stages and causes; the share of faults that the checks tell apart; words of a check; where the rows of evidence come from; and
 * the sources of all targets by their status.
 */
import { readContent } from '#build/library.ts';
import { bringerOf, deriveProblem, hypothesisOf } from '#core/diagnosis/tree/derive-problem.ts';
import { measureSeparation } from '#core/diagnosis/tree/measure-worth.ts';
import { everythingAtHand } from '#core/diagnosis/tree/tree-checks.ts';
import type { FaultTree } from '#core/model/fault-tree.ts';
import { isStep } from '#core/model/node.ts';
import { listParagraphs } from '#core/model/prose.ts';

const origins = ['circuit', 'shows', 'path', 'road', 'unsaid'] as const;
type Origin = (typeof origins)[number];

const { library } = readContent();
console.log(`\n${'tree'.padEnd(32)}checks stages causes ends  isolated  words  rows: ${origins.join(', ')}`);
const rows = [...library.trees.values()].map(printTree);
const wordsOfAll = rows.flatMap(({ words }) => words);
const sums = origins.map((origin) => rows.reduce((sum, row) => sum + row.counts[origin], 0));
console.log(
  `${rows.length} trees: isolated ${mean(rows.map(({ isolated }) => isolated)).toFixed(3)} on average, least ${Math.min(...rows.map(({ isolated }) => isolated)).toFixed(2)}; ` +
    `median of ${middle(wordsOfAll)} words a check; rows ${origins.map((origin, index) => `${origin} ${sums[index]}`).join(', ')}`,
);
const targets = [...library.targets.values()];
const byStatus = Object.entries(Object.groupBy(targets, ({ status }) => status));
console.log(
  `${targets.length} targets: ${byStatus.map(([status, some = []]) => `${status} ${some.length}`).join(', ')}`,
);

function printTree(tree: FaultTree): {
  readonly isolated: number;
  readonly words: readonly number[];
  readonly counts: Readonly<Record<Origin, number>>;
} {
  const { isolatedToOne: isolated } = measureSeparation(tree, library);
  const words = tree.nodes.flatMap((node) =>
    node.kind === 'check' ? [listParagraphs(node.prose).join(' ').split(/\s+/).filter(Boolean).length] : [],
  );
  const counts = countRows(tree);
  const count = (kind: string): string => String(tree.nodes.filter((node) => node.kind === kind).length);
  const steps = tree.nodes.filter(isStep);
  const stages = steps.reduce((sum, step) => sum + (step.kind === 'path' ? step.stages.length : 0), 0);
  const others = tree.nodes.filter(({ kind }) => kind === 'elsewhere' || kind === 'hand-over').length;
  console.log(
    [
      tree.slug.padEnd(32),
      count('check').padStart(6),
      String(stages).padStart(7),
      count('cause').padStart(7),
      String(others).padStart(5),
      isolated.toFixed(2).padStart(10),
      String(middle(words)).padStart(7),
      '  ',
      origins.map((origin) => String(counts[origin])).join(', '),
    ].join(''),
  );
  return { isolated, words, counts };
}

/** For every check and end, what the first thing is that tells the row: the order is that of readRows. */
function countRows(tree: FaultTree): Record<Origin, number> {
  const { problem, checks, saidRows } = deriveProblem(tree, library, {
    bench: everythingAtHand,
    goal: 'isolate',
    isFaultless: true,
    repaired: [],
    isWorsened: false,
  });
  const counts: Record<Origin, number> = { circuit: 0, shows: 0, path: 0, road: 0, unsaid: 0 };
  for (const [check, { id, node, stage }] of checks.entries()) {
    for (const [cause, { id: causeId }] of problem.causes.entries()) {
      const end = hypothesisOf(tree, causeId);
      if (end === undefined || bringerOf(causeId) !== undefined) continue;
      const isComputed = tree.computed[causeId]?.[id] !== undefined;
      const isShown = Object.hasOwn(end.shows, node.id);
      const isSaid = saidRows[check]?.[cause] !== undefined;
      const origin = isComputed ? 'circuit' : isShown ? 'shows' : !isSaid ? 'unsaid' : stage ? 'path' : 'road';
      counts[origin] += 1;
    }
  }
  return counts;
}

function middle(values: readonly number[]): number {
  return values.toSorted((one, other) => one - other)[Math.floor(values.length / 2)] ?? 0;
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

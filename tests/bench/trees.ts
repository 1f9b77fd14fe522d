/**
 * What the shipped trees are worth: node tests/bench/trees.ts
 * Expected minutes to an isolated end and to a proved repair, in the order written, in the engine's, and the bound that no order can be below.
 */
import { readContent } from '#build/library.ts';
import { type TreeWorth, measureWorth } from '#core/diagnosis/tree/measure-worth.ts';

/** States of each plan that are visited. */
const MOST_STATES = 2000;

console.log(
  `\n${'tree'.padEnd(20)} to isolate: written (worst)  engine (worst)   to repair: written  engine (from .. to)  bound   to one, two  group  idle, never taken`,
);
const { library } = readContent();
const worths = [...library.trees.values()].map((tree) => {
  const worth = measureWorth(tree, library, { mostStates: MOST_STATES });
  console.log(printLine(tree.slug, worth));
  return worth;
});
const written = sum((worth) => worth.repair.written.expectedMinutes);
const chosen = sum((worth) => worth.repair.chosen.expectedMinutes);
console.log(
  `${worths.length} trees: mean ${(written / worths.length).toFixed(1)} minutes as written, ${(chosen / worths.length).toFixed(1)} with the engine (${(100 * (1 - chosen / written)).toFixed(1)} % less)`,
);

function printLine(slug: string, { isolate, repair, separation, neverPays }: TreeWorth): string {
  const minutes = (value: number): string => value.toFixed(1).padStart(6);
  const range = repair.chosen.isExact
    ? 'exact'
    : `${repair.chosen.atLeast.toFixed(0)} .. ${repair.chosen.atMost.toFixed(0)}`;
  return [
    slug.padEnd(20),
    `${minutes(isolate.written.expectedMinutes)} (${minutes(isolate.written.worstMinutes)})`.padEnd(28),
    `${minutes(isolate.chosen.expectedMinutes)} (${minutes(isolate.chosen.worstMinutes)})`.padEnd(22),
    minutes(repair.written.expectedMinutes).padEnd(12),
    `${minutes(repair.chosen.expectedMinutes)} (${range})`.padEnd(20),
    minutes(repair.atLeastMinutes),
    `  ${separation.isolatedToOne.toFixed(2)}, ${separation.isolatedToTwo.toFixed(2)}`.padEnd(14),
    separation.expectedGroupSize.toFixed(2).padEnd(6),
    `${separation.idleChecks.join(' ')}${neverPays.length > 0 ? `, ${neverPays.join(' ')}` : ''}`,
  ].join(' ');
}

function sum(pick: (worth: TreeWorth) => number): number {
  return worths.reduce((total, worth) => total + pick(worth), 0);
}

import type { WrittenValue } from '#core/diagnosis/tree/written-road.ts';
import { measureWorth, type UnseparatedPair } from '#core/diagnosis/tree/measure-worth.ts';
import type { FaultTree } from '#core/model/fault-tree.ts';
import type { References } from '#core/model/library.ts';

/** What a tree is worth, in words for its author: minutes, separation in the manner of IEEE 1522, and what would help most. */
export function printWorth(tree: FaultTree, references: Pick<References, 'setups' | 'instruments'>): string {
  const { isolate, repair, separation, neverPays, advice } = measureWorth(tree, references);
  const { pairs, idleChecks, silent } = separation;
  const { chosen } = repair;
  const range = chosen.isExact
    ? ''
    : `; the expected minutes are estimated between ${minutes(chosen.atLeast)} and ${minutes(chosen.atMost)}`;
  return [
    `${tree.title} (${tree.slug})`,
    '',
    'Minutes until one end is isolated      expected   worst',
    row('  in the order written', isolate.written),
    row('  in the order best for a repair', isolate.chosen),
    'Minutes until a repair is proved',
    row('  in the order written', repair.written),
    `${row('  in the order best for a repair', chosen)}${range}`,
    `  were the fault known from the start ${minutes(repair.atLeastMinutes).padStart(8)}`,
    '',
    `Faults isolated to one end ${share(separation.isolatedToOne)}, to two ${share(separation.isolatedToTwo)}, to three ${share(separation.isolatedToThree)}; ${separation.expectedGroupSize.toFixed(2)} suspects left on average (in the manner of IEEE 1522, weighted by chance).`,
    `Ends that no check separates: ${pairs.length === 0 ? 'none' : ''}`,
    ...pairs.map(printPair),
    `Checks that come out alike for every end they speak of: ${list(idleChecks)}.`,
    `Checks that say nothing of a common end; its \`shows\` could name what they read then: ${silent.length === 0 ? 'none' : ''}`,
    ...silent.map(({ end, checks }) => `  ${end}: ${list(checks)}`),
    `Checks that the best order never takes: ${list(neverPays)}.`,
    '',
    advice ?? sayNoAdvice(tree.order === undefined ? repair.written.expectedMinutes - chosen.expectedMinutes : 0),
  ].join('\n');
}

/** The checks that speak of both ends tell where `shows` says too little, or where a check is missing. */
function printPair({ ends, alike }: UnseparatedPair): string {
  const read = alike.map(({ check, outcomes }) => `${check}=${outcomes.join('|')}`);
  return `  ${ends.join(' and ')}: ${read.length === 0 ? 'no check speaks of both' : `both may read ${read.join(' ')}`}`;
}

function row(label: string, { expectedMinutes, worstMinutes }: WrittenValue): string {
  return `${label.padEnd(38)}${minutes(expectedMinutes).padStart(8)}${minutes(worstMinutes).padStart(8)}`;
}

function minutes(value: number): string {
  return value.toFixed(1);
}

function share(fraction: number): string {
  return `${Math.round(100 * fraction)} %`;
}

function list(ids: readonly string[]): string {
  return ids.length === 0 ? 'none' : ids.join(', ');
}

/** Advice is about one more check; another order of those there are costs nobody anything, since the page takes it by itself. */
function sayNoAdvice(savedMinutes: number): string {
  const order =
    savedMinutes < 0.5 ? '' : ` The page takes the better order by itself: ${minutes(savedMinutes)} minutes less.`;
  return `No further check between two ends would save half a minute.${order}`;
}

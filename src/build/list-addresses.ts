import type { Library } from '#core/model/library.ts';
import { addressOf, guidePages, type Place } from '#core/link/address.ts';
import { nodePages, treePages } from './old-addresses.ts';

/** Pages of which there is one each. */
const single = ['home', 'targets', 'cautions', 'units', 'hand-over', 'data', 'draft', 'log', 'guide'] as const;

/** Every address that the content answers today, the old ones among them, below `/`, sorted. */
export function listAddresses(library: Library): readonly string[] {
  const places: readonly Place[] = [
    ...single.map((kind) => ({ kind })),
    ...guidePages.map((page): Place => ({ kind: 'guide', page })),
    ...treePages(library).map(({ treeSlug }): Place => ({ kind: 'tree', tree: treeSlug })),
    ...treePages(library).map(({ treeSlug }): Place => ({ kind: 'whole-tree', tree: treeSlug })),
    ...nodePages(library).map(({ treeSlug, nodeId }): Place => ({ kind: 'node', tree: treeSlug, node: nodeId })),
    ...[...library.targets.keys()].map((slug): Place => ({ kind: 'target', slug })),
    ...[...library.cautions.keys()].map((slug): Place => ({ kind: 'caution', slug })),
    ...[...library.units.keys()].map((slug): Place => ({ kind: 'unit', slug })),
  ];
  return [...new Set(places.map((place) => addressOf(place, '/')))].toSorted(compareText);
}

/**
 * The text of content/addresses.txt with today's addresses added: one a line, sorted, each once. What once stood there stays,
 * because somebody may have linked to it.
 */
export function addAddresses(text: string, today: readonly string[]): string {
  const known = text.split(/\r?\n/).map((line) => line.trim());
  const all = new Set([...known, ...today].filter((line) => line !== ''));
  return `${[...all].toSorted(compareText).join('\n')}\n`;
}

/** By code unit, whatever the language of the machine. */
function compareText(one: string, other: string): number {
  return one < other ? -1 : one > other ? 1 : 0;
}

import { type Place, addressOf, guidePages, singlePages } from '#core/link/address.ts';
import { compareTexts } from '#core/log/history.ts';
import type { FaultTree } from '#core/model/fault-tree.ts';
import type { Library } from '#core/model/library.ts';

/** A page to build for one node: under its own address, or under one it had before. */
export interface NodePage {
  readonly treeSlug: string;
  readonly nodeId: string;
  readonly tree: FaultTree;
  readonly node: string;
}

/** Every address of every tree: its slug, and the slugs it had before, unless another tree has that name today. */
export function treePages(
  library: Pick<Library, 'trees'>,
): readonly { readonly treeSlug: string; readonly tree: FaultTree }[] {
  const trees = [...library.trees.values()];
  const held = new Map<string, FaultTree>();
  for (const tree of trees) for (const old of tree.was) if (!held.has(old)) held.set(old, tree);
  for (const tree of trees) held.set(tree.slug, tree);
  return [...held].map(([treeSlug, tree]) => ({ treeSlug, tree }));
}

/**
 * Every address of every node, the old ones of node and tree included. Where two claim one address, today's holder has it,
 * then the node that stands first.
 */
export function nodePages(library: Pick<Library, 'trees'>): readonly NodePage[] {
  const pages = treePages(library).flatMap(({ treeSlug, tree }) => [
    ...tree.nodes.map(({ id }): NodePage => ({ treeSlug, nodeId: id, tree, node: id })),
    ...tree.nodes.flatMap(({ id, was }) =>
      was.filter((old) => !old.includes('/')).map((nodeId): NodePage => ({ treeSlug, nodeId, tree, node: id })),
    ),
  ]);
  const moved = [...library.trees.values()].flatMap((tree) =>
    tree.nodes.flatMap(({ id, was }) =>
      was.flatMap((old): readonly NodePage[] => {
        const [treeSlug = '', nodeId] = old.split('/');
        return nodeId === undefined ? [] : [{ treeSlug, nodeId, tree, node: id }];
      }),
    ),
  );
  const isToday = ({ treeSlug, nodeId, tree, node }: NodePage): boolean => treeSlug === tree.slug && nodeId === node;
  const all = [...pages, ...moved];
  const held = new Map<string, NodePage>();
  for (const page of [...all.filter(isToday), ...all]) {
    const address = `${page.treeSlug}/${page.nodeId}`;
    if (!held.has(address)) held.set(address, page);
  }
  return [...held.values()];
}

/** Every address that the content answers today, the old ones among them, below `/`, sorted. */
export function listAddresses(library: Library): readonly string[] {
  const places: readonly Place[] = [
    ...singlePages.map((kind) => ({ kind })),
    ...guidePages.map((page): Place => ({ kind: 'guide-page', page })),
    ...treePages(library).map(({ treeSlug }): Place => ({ kind: 'tree', tree: treeSlug })),
    ...treePages(library).map(({ treeSlug }): Place => ({ kind: 'whole-tree', tree: treeSlug })),
    ...nodePages(library).map(({ treeSlug, nodeId }): Place => ({ kind: 'node', tree: treeSlug, node: nodeId })),
    ...[...library.targets.keys()].map((slug): Place => ({ kind: 'target', slug })),
    ...[...library.cautions.keys()].map((slug): Place => ({ kind: 'caution', slug })),
    ...[...library.units.keys()].map((slug): Place => ({ kind: 'unit', slug })),
    ...[...library.parts.keys()].map((slug): Place => ({ kind: 'part', slug })),
    ...[...library.circuits.keys()].map((slug): Place => ({ kind: 'circuit', slug })),
  ];
  return [...new Set(places.map((place) => addressOf(place, '/')))].toSorted(compareTexts);
}

/**
 * The text of content/addresses.txt with today's addresses added: one a line, sorted, each once. What once stood there stays,
 * because somebody may have linked to it.
 */
export function addAddresses(text: string, today: readonly string[]): string {
  const known = text.split(/\r?\n/).map((line) => line.trim());
  const all = new Set([...known, ...today].filter((line) => line !== ''));
  return `${[...all].toSorted(compareTexts).join('\n')}\n`;
}

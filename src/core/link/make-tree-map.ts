import type { FaultTree } from '../model/fault-tree.ts';
import { isHandOverForSafety, linksFrom } from '../model/node.ts';
import type { TreeMap } from './tree-map.ts';

/** What has changed about addresses since they were published. */
export interface AddressMoves {
  /** All trees; those with earlier slugs lead to today's. */
  readonly trees?: readonly Pick<FaultTree, 'slug' | 'was'>[];
  /** Slug in the address of the page that the map is for; the tree's own where it is left out. */
  readonly addressed?: string;
}

/** The map of a tree, plus the names that may stand in its fragment. */
export function makeTreeMap(
  tree: FaultTree,
  trees: readonly string[],
  units: readonly string[],
  { trees: all = [], addressed = tree.slug }: AddressMoves = {},
): TreeMap {
  const renamed = Object.fromEntries(all.flatMap(({ slug, was }) => was.map((old) => [old, slug] as const)));
  const isMoved = addressed !== tree.slug && !tree.was.includes(addressed);
  return {
    slug: tree.slug,
    title: tree.title,
    start: tree.nodes[0]?.id ?? '',
    ...(tree.was.length === 0 ? {} : { was: tree.was }),
    nodes: tree.nodes.map((node) => ({
      id: node.id,
      kind: node.kind,
      title: node.title,
      ...(node.was.length === 0 ? {} : { was: node.was }),
      ...(isHandOverForSafety(node) ? { isFinal: true as const } : {}),
      links: linksFrom(node).map(({ words, to }) => ({ words, to })),
    })),
    trees,
    ...(Object.keys(renamed).length === 0 ? {} : { renamed }),
    ...(isMoved ? { movedFrom: addressed } : {}),
    units,
  };
}

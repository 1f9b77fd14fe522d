import type { FaultTree } from '../model/fault-tree.ts';
import { isHandOverForSafety, linksFrom } from '../model/node.ts';
import type { NamedUnit, TreeMap } from './tree-map.ts';

/**
 * The map of a tree, plus the names that may stand in its fragment.
 * @param renamed all trees; those with earlier slugs lead to today's
 */
export function makeTreeMap(
  tree: FaultTree,
  trees: readonly string[],
  units: readonly NamedUnit[],
  renamed: readonly Pick<FaultTree, 'slug' | 'was'>[] = [],
): TreeMap {
  const today = renamed.flatMap(({ slug, was }) => was.map((old) => [old, slug] as const));
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
      links: linksFrom(node).map(({ from: _, part: __, ...way }) => way),
    })),
    trees,
    ...(today.length === 0 ? {} : { renamed: Object.fromEntries(today) }),
    units: units.map(({ slug, title, isInvented }) => ({ slug, title, ...(isInvented ? { isInvented } : {}) })),
  };
}

import type { NodeWays } from '../answer/lead.ts';
import type { FaultTree, NodeKind } from '../model/fault-tree.ts';
import { isHandOverForSafety, linksFrom } from '../model/node.ts';
import type { LinkNames } from './fragment.ts';

/** What a page's script needs to know of its tree: small enough to lie in every page. */
export interface TreeMap {
  readonly slug: string;
  readonly title: string;
  readonly start: string;
  readonly nodes: readonly MappedNode[];
  /** Earlier slugs of this tree. */
  readonly was?: readonly string[];
  readonly trees: readonly string[];
  /** Trees that were renamed: earlier slug and today's. */
  readonly renamed?: Readonly<Record<string, string>>;
  /** Slug in the page's address, where it is that of another tree which the node has left since. */
  readonly movedFrom?: string;
  readonly units: readonly string[];
}

export interface MappedNode extends NodeWays {
  readonly kind: NodeKind;
  readonly title: string;
  readonly was?: readonly string[];
  /** A hand-over for safety: an answer that leads here holds on every page of the tree. */
  readonly isFinal?: true;
}

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

/** Names that may stand in a fragment on a page of this tree; earlier ids lead to today's, and today's win. */
export function namesOf(map: TreeMap): LinkNames {
  const nodes = new Map<string, { id: string; kind: string }>();
  for (const { id, kind, was = [] } of map.nodes) for (const name of was) nodes.set(name, { id, kind });
  for (const { id, kind } of map.nodes) nodes.set(id, { id, kind });
  return {
    nodes,
    trees: new Set(map.trees),
    units: new Set(map.units),
    own: new Set([map.slug, ...(map.was ?? [])]),
    renamed: new Map(Object.entries(map.renamed ?? {})),
    movedFrom: map.movedFrom,
  };
}

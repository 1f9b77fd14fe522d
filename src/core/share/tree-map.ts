import type { FaultTree, NodeKind } from '../model/fault-tree.ts';
import { linksFrom } from '../model/links.ts';
import { openEnds } from '../model/open-ends.ts';
import type { LinkNames } from './link-state.ts';

/** What a page's script needs to know of its tree: small enough to lie in every page. */
export interface TreeMap {
  readonly slug: string;
  readonly title: string;
  readonly start: string;
  readonly nodes: readonly MappedNode[];
  readonly trees: readonly string[];
  readonly boards: readonly string[];
}

export interface MappedNode {
  readonly id: string;
  readonly kind: NodeKind;
  readonly title: string;
  readonly was?: readonly string[];
  /** How many ends can still be reached. */
  readonly open: number;
  /** Ways on: words and where they lead. */
  readonly links: readonly (readonly [words: string, to: string])[];
}

/** The map of a tree, plus the names that may stand in its fragment. */
export function makeTreeMap(tree: FaultTree, trees: readonly string[], boards: readonly string[]): TreeMap {
  return {
    slug: tree.slug,
    title: tree.title,
    start: tree.nodes[0]?.id ?? '',
    nodes: tree.nodes.map((node) => ({
      id: node.id,
      kind: node.kind,
      title: node.title,
      ...(node.was.length === 0 ? {} : { was: node.was }),
      open: openEnds(tree, node.id).length,
      links: linksFrom(node).map(({ words, to }) => [words.join(' '), to] as const),
    })),
    trees,
    boards,
  };
}

/** Names that may stand in a fragment on a page of this tree; earlier ids lead to today's. */
export function namesOf(map: TreeMap): LinkNames {
  const nodes = new Map<string, { id: string; kind: string }>();
  for (const { id, kind, was = [] } of map.nodes) for (const name of [...was, id]) nodes.set(name, { id, kind });
  return { nodes, trees: new Set(map.trees), boards: new Set(map.boards) };
}

import type { FaultTree, NodeKind } from '../model/fault-tree.ts';
import { type Link, linksFrom } from '../model/node.ts';

/** What a fault tree looks like once only its nodes and the ways between them are kept. */
export interface DecisionGraph {
  readonly title: string;
  /** Id of the node the reader starts at; undefined where the graph is a part that leaves it out. */
  readonly start: string | undefined;
  readonly nodes: readonly GraphNode[];
  readonly edges: readonly GraphEdge[];
}

export interface GraphNode {
  /** Place in the tree's file, from 0; a part of a graph keeps the number of the whole. */
  readonly index: number;
  readonly id: string;
  readonly kind: NodeKind;
  readonly title: string;
}

export interface GraphEdge {
  readonly from: string;
  readonly to: string;
  /** Outcome words or stage titles, joined by commas. */
  readonly label: string;
}

/** A tree, or its map in a page, as far as its graph needs it. */
export interface GraphSource {
  readonly title: string;
  readonly nodes: readonly (Omit<GraphNode, 'index'> & { readonly links: readonly Omit<Link, 'from' | 'part'>[] })[];
}

/** Reduces a fault tree to its decision graph. */
export function buildDecisionGraph({ title, nodes }: FaultTree): DecisionGraph {
  return graphOf({ title, nodes: nodes.map((node) => ({ ...node, links: linksFrom(node) })) });
}

/**
 * The decision graph of what is known of a tree.
 *
 * Edges come from the outcomes of checks (label: the outcome's words), the stages of paths (label: the stage's title)
 * and the `good` of paths. Several ways between the same two nodes become one edge with their labels joined, in the
 * order of the file. A way to a node that the tree does not hold, or from a node to itself, is left out; of two nodes
 * with one id the first counts. The compiler refuses such trees, a draft may still hold them.
 *
 * @example graphOf(mapOfNoSound).edges[0] // { from: 'tone-at-pot', to: 'tone-source', label: 'low, none' }
 */
export function graphOf(tree: GraphSource): DecisionGraph {
  const nodes = new Map<string, GraphNode>();
  const first = tree.nodes.filter(({ id, kind, title }, index) => {
    if (nodes.has(id)) return false;
    nodes.set(id, { index, id, kind, title });
    return true;
  });
  const edges = first.flatMap(({ id, links }) =>
    mergeParallelWays(links.filter(({ to }) => nodes.has(to) && to !== id)).map((way) => ({ from: id, ...way })),
  );
  return { title: tree.title, start: tree.nodes[0]?.id, nodes: [...nodes.values()], edges };
}

function mergeParallelWays(
  links: GraphSource['nodes'][number]['links'],
): readonly { readonly to: string; readonly label: string }[] {
  const labels = new Map<string, string[]>();
  for (const { to, title, words } of links) {
    // Outcome words are ids; on the sheet they read as plain words.
    const label = title ?? words.map((word) => word.replaceAll('-', ' ')).join(', ');
    labels.set(to, [...(labels.get(to) ?? []), label]);
  }
  return [...labels].map(([to, parts]) => ({ to, label: parts.join(', ') }));
}

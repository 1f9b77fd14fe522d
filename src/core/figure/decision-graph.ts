import type { FaultTree, NodeKind, TreeNode } from '../model/fault-tree.ts';

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

/** What stands on the way out of a path whose every stage is good. */
const allGood = 'good';

/**
 * Reduces a fault tree to its decision graph.
 *
 * Edges come from the outcomes of checks (label: the outcome's words), the stages of paths (label: the stage's title)
 * and the `good` of paths. Several ways between the same two nodes become one edge with their labels joined, in the
 * order of the file. A way to a node that the tree does not hold, or from a node to itself, is left out; of two nodes
 * with one id the first counts. The compiler refuses such trees, a draft may still hold them.
 *
 * @example buildDecisionGraph(noSound).edges[0] // { from: 'tone-at-pot', to: 'tone-source', label: 'low, none' }
 */
export function buildDecisionGraph(tree: FaultTree): DecisionGraph {
  const nodes = new Map<string, GraphNode>();
  const authored = new Map<string, TreeNode>();
  for (const [index, node] of tree.nodes.entries()) {
    if (nodes.has(node.id)) continue;
    nodes.set(node.id, { index, id: node.id, kind: node.kind, title: node.title });
    authored.set(node.id, node);
  }
  const edges = [...authored.values()].flatMap((node) =>
    mergeParallelWays(listWaysOut(node).filter((way) => nodes.has(way.to) && way.to !== node.id)).map((way) => ({
      from: node.id,
      ...way,
    })),
  );
  return { title: tree.title, start: tree.nodes[0]?.id, nodes: [...nodes.values()], edges };
}

interface Way {
  readonly to: string;
  readonly label: string;
}

function listWaysOut(node: TreeNode): readonly Way[] {
  switch (node.kind) {
    case 'check':
      return node.outcomes.map((outcome) => ({ to: outcome.to, label: outcome.when.map(speakWord).join(', ') }));
    case 'path':
      return [
        ...node.stages.map((stage) => ({ to: stage.fault, label: stage.title })),
        { to: node.good, label: allGood },
      ];
    case 'cause':
    case 'elsewhere':
    case 'hand-over':
      return [];
  }
}

/** Outcome words are ids; on the sheet they read as plain words. */
function speakWord(word: string): string {
  return word.replaceAll('-', ' ');
}

function mergeParallelWays(ways: readonly Way[]): readonly Way[] {
  const labels = new Map<string, string[]>();
  for (const way of ways) labels.set(way.to, [...(labels.get(way.to) ?? []), way.label]);
  return [...labels].map(([to, parts]) => ({ to, label: parts.join(', ') }));
}

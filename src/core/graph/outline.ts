import type { DecisionGraph, GraphNode } from './decision-graph.ts';

/** A node in the outline, with what its answers lead to. */
export interface OutlineEntry {
  /** Place in the order of reading, from 1. */
  readonly number: number;
  readonly node: GraphNode;
  readonly answers: readonly OutlineAnswer[];
}

/** One answer: `entry` opens the node here, `reference` points to where it is already listed. */
export type OutlineAnswer =
  | { readonly kind: 'entry'; readonly label: string; readonly entry: OutlineEntry }
  | { readonly kind: 'reference'; readonly label: string; readonly number: number; readonly node: GraphNode };

/**
 * Writes a graph out as nested text: every node, its answers, and where each leads, the same information as the
 * drawing. A node is listed once, where reading from the start meets it first; later answers refer to its number, so
 * that the outline also ends for a draft that runs in circles. Nodes that nothing leads to follow as entries of their
 * own, in the order of the file.
 *
 * @example buildOutline(graph)[0]?.answers[0] // { kind: 'entry', label: 'low, none', entry: { number: 2, … } }
 */
export function buildOutline(graph: DecisionGraph): readonly OutlineEntry[] {
  const nodes = new Map(graph.nodes.map((node) => [node.id, node]));
  const entered = new Set(graph.edges.map((edge) => edge.to));
  const numbers = new Map<string, number>();

  const list = (node: GraphNode): OutlineEntry => {
    const number = numbers.size + 1;
    numbers.set(node.id, number);
    const answers: OutlineAnswer[] = [];
    for (const edge of graph.edges) {
      const next = nodes.get(edge.to);
      if (edge.from !== node.id || next === undefined) continue;
      const known = numbers.get(next.id);
      answers.push(
        known === undefined
          ? { kind: 'entry', label: edge.label, entry: list(next) }
          : { kind: 'reference', label: edge.label, number: known, node: next },
      );
    }
    return { number, node, answers };
  };

  const first = graph.nodes.filter((node) => node.id === graph.start);
  const without = graph.nodes.filter((node) => !entered.has(node.id));
  const entries: OutlineEntry[] = [];
  for (const node of [...first, ...without, ...graph.nodes]) {
    if (!numbers.has(node.id)) entries.push(list(node));
  }
  return entries;
}

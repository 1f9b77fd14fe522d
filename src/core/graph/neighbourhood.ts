import type { DecisionGraph } from './decision-graph.ts';

/**
 * Cuts out of a graph one node, the nodes one step before it and the nodes one step after it, with the edges that touch
 * the node: what fits a phone. Ways among the neighbours themselves are left out. An id the graph does not hold gives
 * an empty graph.
 *
 * @example findNeighbourhood(graph, 'amplifier-path').nodes.map((node) => node.id)
 * // ['tone-at-pot', 'amplifier-path', 'coupling-open', 'amplifier-dead', 'speaker-open']
 */
export function findNeighbourhood(graph: DecisionGraph, id: string): DecisionGraph {
  const edges = graph.edges.filter((edge) => edge.from === id || edge.to === id);
  const kept = new Set([id, ...edges.flatMap((edge) => [edge.from, edge.to])]);
  const nodes = graph.nodes.filter((node) => kept.has(node.id));
  const start = nodes.some((node) => node.id === graph.start) ? graph.start : undefined;
  return { title: graph.title, start, nodes, edges };
}

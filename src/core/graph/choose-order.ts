import type { DecisionGraph, GraphEdge } from './decision-graph.ts';
import type { Sheet } from './sheet.ts';

/** Graphs up to this many nodes come out well in the order of the file. */
const simple = 8;

/**
 * The same graph told in several orders. dagre's rows follow the order it is told in, and no order is best for every
 * tree: over the first fifteen trees the best of these three is up to a third narrower than the order of the file.
 */
export function listOrders(graph: DecisionGraph): readonly DecisionGraph[] {
  if (graph.nodes.length <= simple) return [graph];
  const places = new Map(graph.nodes.map((node) => [node.id, node.index]));
  const placeOf = (edge: GraphEdge): number => places.get(edge.to) ?? 0;
  return [
    graph,
    { ...graph, nodes: graph.nodes.toReversed(), edges: graph.edges.toReversed() },
    { ...graph, edges: graph.edges.toSorted((one, other) => placeOf(other) - placeOf(one)) },
  ];
}

/** Line to follow with the eye, in pixels, and a page to scroll: the width weighs most, as it scrolls sideways. */
export function costOfSheet(sheet: Sheet): number {
  const lengths = sheet.edges.map(({ points }) =>
    points.reduce((sum, point, place) => {
      const before = points[place - 1] ?? point;
      return sum + Math.abs(point.x - before.x) + Math.abs(point.y - before.y);
    }, 0),
  );
  return lengths.reduce((sum, length) => sum + length, 0) + 6 * sheet.width + sheet.height;
}

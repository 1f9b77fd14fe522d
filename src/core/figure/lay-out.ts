import { layout } from 'dagre-d3-es/src/dagre/index.js';
import { Graph } from 'dagre-d3-es/src/graphlib/index.js';
import { arrangeSheet, type Layout } from './arrange-sheet.ts';
import type { FaultTree } from '../model/fault-tree.ts';
import { buildDecisionGraph, type DecisionGraph, type GraphEdge } from './decision-graph.ts';
import { measureLabel, type MeasureText } from './label.ts';
import { type DrawOptions, drawSheet, type Point, type Sheet } from './sheet.ts';
import { fitSymbol } from './symbol.ts';

/**
 * Draws a tree's whole decision graph as SVG: when the site is built, and while a tree is drafted. The same tree, measure
 * and options give the same bytes.
 */
export function drawTree(tree: FaultTree, measure: MeasureText, options: Omit<DrawOptions, 'name'>): string {
  return drawSheet(layOutSheet(buildDecisionGraph(tree), measure), { name: nameGraph(tree), ...options });
}

/** Accessible name of the drawing of a tree's whole graph. */
export function nameGraph({ title }: FaultTree): string {
  return `Decision graph: ${title}`;
}

/**
 * Lays a whole graph out on a sheet. Mermaid's layout engine (dagre), called by itself because Mermaid wants a document
 * and draws with style attributes, finds the rows and the places across, in each of a few orders of the graph; the sheet
 * with the least line to follow and the least width is taken.
 */
export function layOutSheet(graph: DecisionGraph, measure: MeasureText): Sheet {
  const sheets = listOrders(graph).map((order) => arrangeSheet(graph, layOut(graph, order, measure), measure));
  return sheets.reduce((best, sheet) => (costOfSheet(sheet) < costOfSheet(best) ? sheet : best));
}

/** Graphs up to this many nodes come out well in the order of the file. */
const simple = 8;

/**
 * The same graph told in several orders. dagre's rows follow the order it is told in, and no order is best for every
 * tree: over the first fifteen trees the best of these three is up to a third narrower than the order of the file.
 */
function listOrders(graph: DecisionGraph): readonly DecisionGraph[] {
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
function costOfSheet(sheet: Sheet): number {
  const lengths = sheet.edges.map(({ points }) =>
    points.reduce((sum, point, place) => {
      const before = points[place - 1] ?? point;
      return sum + Math.abs(point.x - before.x) + Math.abs(point.y - before.y);
    }, 0),
  );
  return lengths.reduce((sum, length) => sum + length, 0) + 6 * sheet.width + sheet.height;
}

/** Spacings in pixels are those that Mermaid is given for a flowchart that is as dense as ours. */
function layOut(graph: DecisionGraph, order: DecisionGraph, measure: MeasureText): Layout {
  const sheet = new Graph({ directed: true });
  sheet.setGraph({ rankdir: 'TB', nodesep: 20, ranksep: 40, marginx: 8, marginy: 8 });
  for (const node of order.nodes) {
    const { width, height } = fitSymbol(node.kind, node.title, measure);
    sheet.setNode(node.id, { width, height });
  }
  for (const edge of order.edges) {
    const { width, height } = measureLabel(edge.label, measure);
    sheet.setEdge(edge.from, edge.to, { width, height, labelpos: 'c', minlen: 1, weight: 1 });
  }
  layout(sheet, {});
  return {
    nodes: new Map(graph.nodes.flatMap(({ id }) => readPoint(sheet.node(id)).map((point) => [id, point] as const))),
    turns: graph.edges.map(({ from, to }) => readTurns(sheet.edge(from, to))),
  };
}

/** dagre writes what it found into the objects it was given, which it gives no type. */
function readPoint(place: unknown): readonly Point[] {
  if (typeof place !== 'object' || place === null || !('x' in place) || !('y' in place)) return [];
  const { x, y } = place;
  return typeof x === 'number' && typeof y === 'number' ? [{ x, y }] : [];
}

function readTurns(edge: unknown): readonly Point[] {
  if (typeof edge !== 'object' || edge === null || !('points' in edge) || !Array.isArray(edge.points)) return [];
  return edge.points.slice(1, -1).flatMap(readPoint);
}

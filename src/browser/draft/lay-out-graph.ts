import { layout } from 'dagre-d3-es/src/dagre/index.js';
import { Graph } from 'dagre-d3-es/src/graphlib/index.js';
import { arrangeSheet, type Layout } from '#core/graph/arrange-sheet.ts';
import { costOfSheet, listOrders } from '#core/graph/choose-order.ts';
import { buildDecisionGraph, type DecisionGraph } from '#core/graph/decision-graph.ts';
import { drawSheet } from '#core/graph/draw-sheet.ts';
import { fitSymbol } from '#core/graph/fit-symbol.ts';
import { measureLabel } from '#core/graph/measure-label.ts';
import type { Point, Sheet } from '#core/graph/sheet.ts';
import type { MeasureText } from '#core/graph/wrap-label.ts';
import type { FaultTree } from '#core/model/fault-tree.ts';

/** Width of a letter that the font lacks, in em, as when the site is built. */
const widthOfMissingLetter = 1.4;

/**
 * Draws a draft's whole graph as SVG. Rows and columns come from dagre, which Mermaid lays the site's own graphs out
 * with; the drawing is the site's. Mermaid itself stays out of the page: what it draws is full of style attributes, and
 * those the page's policy forbids.
 */
export function drawDraftGraph(tree: FaultTree, letterWidths: Readonly<Record<string, number>>): string {
  const graph = buildDecisionGraph(tree);
  const measure = makeMeasure(letterWidths);
  let best: Sheet | undefined;
  for (const order of listOrders(graph)) {
    const sheet = arrangeSheet(graph, layOut(graph, order, measure), measure);
    if (best === undefined || costOfSheet(sheet) < costOfSheet(best)) best = sheet;
  }
  if (best === undefined) throw new Error('Every graph has an order to be drawn in.');
  return drawSheet(best, {
    name: `Decision graph: ${tree.title}`,
    idPrefix: 'draft',
    findAddress: () => undefined,
  });
}

function makeMeasure(letterWidths: Readonly<Record<string, number>>): MeasureText {
  return (text, sizePixels) => {
    let em = 0;
    for (const letter of text) {
      em += Object.hasOwn(letterWidths, letter) ? (letterWidths[letter] ?? 0) : widthOfMissingLetter;
    }
    return em * sizePixels;
  };
}

/** Spacings are those of `src/build/graph/mermaid-page.ts`. */
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

import { arrangeSheet } from '#core/graph/arrange-sheet.ts';
import { costOfSheet, listOrders } from '#core/graph/choose-order.ts';
import type { DecisionGraph } from '#core/graph/decision-graph.ts';
import { type DrawOptions, drawSheet } from '#core/graph/draw-sheet.ts';
import { fitSymbol } from '#core/graph/fit-symbol.ts';
import { measureLabel } from '#core/graph/measure-label.ts';
import { nameNode, writeMermaidText } from '#core/graph/mermaid-text.ts';
import type { Sheet } from '#core/graph/sheet.ts';
import type { MeasureText } from '#core/graph/wrap-label.ts';
import { createMeasureText, sheetFontFile } from './measure-text.ts';
import { type BoxSizes, openMermaidPage, type MermaidPage } from './mermaid-page.ts';
import { nameEdge, readLayout } from './read-layout.ts';

/** Draws graphs one after another; calls made at once wait for each other. */
export interface GraphDrawer {
  readonly measure: MeasureText;
  /** The graph as an SVG string; the same graph and options give the same bytes. */
  readonly draw: (graph: DecisionGraph, options: DrawOptions) => Promise<string>;
}

/**
 * Opens a drawer of graphs: Mermaid (dagre) finds the rows and columns, our own sheet draws the symbols and lines.
 * Opening takes about a second; keep one for a whole build.
 *
 * @param fontFile the font that the page shows the drawing in; the shipped one where nothing is said
 */
export async function openGraphDrawer(fontFile: string = sheetFontFile): Promise<GraphDrawer> {
  const measure = createMeasureText(fontFile);
  const page = await openMermaidPage();
  let last: Promise<unknown> = Promise.resolve();
  return {
    measure,
    draw: (graph, options) => {
      const next = last.then(() => drawOne(page, measure, graph, options));
      last = next.catch(() => undefined);
      return next;
    },
  };
}

async function drawOne(
  page: MermaidPage,
  measure: MeasureText,
  graph: DecisionGraph,
  options: DrawOptions,
): Promise<string> {
  const sizes = measureBoxes(graph, measure);
  let best: Sheet | undefined;
  for (const order of listOrders(graph)) {
    const text = writeMermaidText(order, { measure, findAddress: () => undefined, isLayoutOnly: true });
    const drawing = await page.render(text, sizes);
    const sheet = arrangeSheet(graph, readLayout(graph, drawing), measure);
    if (best === undefined || costOfSheet(sheet) < costOfSheet(best)) best = sheet;
  }
  if (best === undefined) throw new Error('Every graph has an order to be drawn in.');
  return drawSheet(best, options);
}

function measureBoxes(graph: DecisionGraph, measure: MeasureText): BoxSizes {
  const names = new Map(graph.nodes.map((node) => [node.id, nameNode(node)]));
  return {
    nodes: new Map(graph.nodes.map((node) => [nameNode(node), fitSymbol(node.kind, node.title, measure)])),
    edges: new Map(
      graph.edges.map((edge) => [
        nameEdge(names.get(edge.from) ?? '', names.get(edge.to) ?? ''),
        measureLabel(edge.label, measure),
      ]),
    ),
  };
}

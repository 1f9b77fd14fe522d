import { arrangeNeighbourhood } from '#core/graph/arrange-neighbourhood.ts';
import { buildDecisionGraph } from '#core/graph/decision-graph.ts';
import { drawSheet } from '#core/graph/draw-sheet.ts';
import type { FaultTree } from '#core/model/fault-tree.ts';
import { type GraphDrawer, openGraphDrawer } from './draw-graph.ts';
import { createMeasureText, sheetFontFile } from './measure-text.ts';

type FindAddress = (node: string) => string;

let drawer: Promise<GraphDrawer> | undefined;
const measure = createMeasureText(sheetFontFile);

/** The whole decision graph of a tree as SVG; one drawer serves the whole build. */
export async function drawTree(tree: FaultTree, findAddress: FindAddress): Promise<string> {
  drawer ??= openGraphDrawer();
  const name = `Decision graph: ${tree.title}`;
  return (await drawer).draw(buildDecisionGraph(tree), { name, idPrefix: 'whole', findAddress });
}

/** One node with those a step before and after it, as SVG narrow enough for a phone. */
export function drawNeighbourhood(tree: FaultTree, node: string, findAddress: FindAddress): string {
  const sheet = arrangeNeighbourhood(buildDecisionGraph(tree), node, measure);
  return drawSheet(sheet, { name: 'Where this sheet sits in its tree', idPrefix: 'near', findAddress, here: node });
}

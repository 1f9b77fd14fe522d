import { parentPort, workerData } from 'node:worker_threads';
import { buildDecisionGraph } from '#core/figure/decision-graph.ts';
import { layOutSheet } from '#core/figure/lay-out.ts';
import type { FaultTree } from '#core/model/fault-tree.ts';
import { createMeasureText, type LaidOut, sheetFontFile } from './graphs.ts';

// Lays out the graphs of trees, one after another, beside the thread that renders pages.
const trees: readonly FaultTree[] = workerData;
const measure = createMeasureText(sheetFontFile);
for (const [index, tree] of trees.entries()) {
  parentPort?.postMessage({ index, sheet: layOutSheet(buildDecisionGraph(tree), measure) } satisfies LaidOut);
}

import { parentPort, workerData } from 'node:worker_threads';
import { buildDecisionGraph } from '#core/figure/decision-graph.ts';
import { layOutSheet } from '#core/figure/lay-out.ts';
import type { Sheet } from '#core/figure/sheet.ts';
import type { FaultTree } from '#core/model/fault-tree.ts';
import { createMeasureText, sheetFontFile } from './graphs.ts';

/** A graph laid out: the place of its tree in the list that this worker was given, and the sheet. */
export interface LaidOut {
  readonly index: number;
  readonly sheet: Sheet;
}

// Lays out the graphs of trees, one after another, beside the thread that renders pages.
const trees: readonly FaultTree[] = workerData;
const measure = createMeasureText(sheetFontFile);
for (const [index, tree] of trees.entries()) {
  parentPort?.postMessage({ index, sheet: layOutSheet(buildDecisionGraph(tree), measure) } satisfies LaidOut);
}

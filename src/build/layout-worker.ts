import { parentPort, workerData } from 'node:worker_threads';
import { buildDecisionGraph } from '#core/figure/decision-graph.ts';
import { arrangeLadder } from '#core/figure/ladder.ts';
import { layOutSheet } from '#core/figure/lay-out.ts';
import type { FaultTree } from '#core/model/fault-tree.ts';
import { createMeasureText, sheetFontFile } from './graphs.ts';
import type { LaidOut } from './layouts.ts';

// Lays out the graphs of trees, one after another, beside the thread that renders pages.
const trees: readonly FaultTree[] = workerData;
const measure = createMeasureText(sheetFontFile);
for (const [index, tree] of trees.entries()) {
  const graph = buildDecisionGraph(tree);
  const sheets = { wide: layOutSheet(graph, measure), ladder: arrangeLadder(graph, measure) };
  parentPort?.postMessage({ index, sheets } satisfies LaidOut);
}

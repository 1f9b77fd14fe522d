import { parentPort, workerData } from 'node:worker_threads';
import { buildDecisionGraph } from '#core/figure/decision-graph.ts';
import { arrangeLadder } from '#core/figure/ladder.ts';
import { layOutSheet } from '#core/figure/lay-out.ts';
import type { FaultTree } from '#core/model/fault-tree.ts';
import { createMeasureText, sheetFontFile } from './graphs.ts';
import { keepOnDisk } from './keep.ts';
import type { GraphSheets, LaidOut } from './layouts.ts';

// Lays out the graphs of trees, one after another, beside the thread that renders pages.
const trees: readonly FaultTree[] = workerData;
const keep = keepOnDisk(process.cwd());
const measure = createMeasureText(sheetFontFile);
for (const [index, tree] of trees.entries()) {
  const graph = buildDecisionGraph(tree);
  const sheets = keep(
    'sheets',
    () => [JSON.stringify(graph)],
    (): GraphSheets => ({ wide: layOutSheet(graph, measure), ladder: arrangeLadder(graph, measure) }),
  );
  parentPort?.postMessage({ index, sheets } satisfies LaidOut);
}

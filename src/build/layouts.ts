import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import type { Sheet } from '#core/figure/sheet.ts';
import type { FaultTree } from '#core/model/fault-tree.ts';

/** The decision graph of a tree, laid out. */
export interface GraphSheets {
  /** For a wide screen, and for paper. */
  readonly wide: Sheet;
  /** Runs down a phone's page. */
  readonly ladder: Sheet;
}

/** What `layout-worker.ts` tells: the place of a tree in the list that it was given, and its sheets. */
export interface LaidOut {
  readonly index: number;
  readonly sheets: GraphSheets;
}

/** Kept on the process: the guard begins before the pages have their own copy of this module. */
const shared: typeof globalThis & { halfsplitSheets?: WeakMap<FaultTree, Promise<GraphSheets>> } = globalThis;
shared.halfsplitSheets ??= new WeakMap();
const { halfsplitSheets: sheetsOfTree } = shared;

/** Hands the trees that are not laid out yet to a worker, which is at it while this thread bundles and renders pages. */
export function layOut(trees: readonly FaultTree[]): void {
  const waiting = trees
    .filter((tree) => !sheetsOfTree.has(tree))
    .map((tree) => {
      const { promise, resolve, reject } = Promise.withResolvers<GraphSheets>();
      sheetsOfTree.set(tree, promise);
      // Read when its page is rendered; until then nobody listens.
      promise.catch(() => undefined);
      return { tree, resolve, reject };
    });
  if (waiting.length === 0) return;
  const worker = new Worker(join(process.cwd(), 'src/build/layout-worker.ts'), {
    workerData: waiting.map(({ tree }) => tree),
  });
  worker.on('message', ({ index, sheets }: LaidOut) => waiting[index]?.resolve(sheets));
  worker.on('error', (error) => {
    for (const { reject } of waiting) reject(error);
  });
}

/** The sheets of a tree that was handed over before. */
export function sheetsOf(tree: FaultTree): Promise<GraphSheets> {
  return sheetsOfTree.get(tree) ?? Promise.reject(new Error(`${tree.slug} was not laid out.`));
}

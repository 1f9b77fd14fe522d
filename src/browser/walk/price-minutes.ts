import type { Assessment, Known, InstrumentSaving } from '#core/diagnosis/tree/assess-tree.ts';
import type { ToldMinutes } from '#core/diagnosis/tree/tell-minutes.ts';
import type { Bench } from '#core/diagnosis/tree/tree-checks.ts';
import type { Walk } from '#core/answer/bench-tree.ts';

/** What the worker needs to count. */
export interface PriceRequest extends Walk {
  readonly known: Known;
  readonly bench: Bench;
}

/** What takes longer than a press: about how many minutes are left to a proven repair, and the next step thought over. */
export interface Minutes extends ToldMinutes {
  /** What instruments that are not at hand would save here. */
  readonly savings: readonly InstrumentSaving[];
  /** The step that looking further ahead finds; mostly the one that stands on the page already. */
  readonly better: Pick<Assessment, 'next' | 'why' | 'written'>;
}

/** A page that is left sooner than this counts nothing: counting costs as much as the whole page, and a battery. */
const restMilliseconds = 1500;

let worker: Worker | undefined;
let last: ((minutes: Minutes | undefined) => void) | undefined;

/** Counts the expected minutes in a worker, so that no press waits for it; a newer request drops the older one. */
export function priceMinutes(request: PriceRequest): Promise<Minutes | undefined> {
  last?.(undefined);
  if (last !== undefined) {
    // Still counting what nobody wants any more.
    worker?.terminate();
    worker = undefined;
  }
  return new Promise((resolve) => {
    last = resolve;
    setTimeout(() => {
      if (last !== resolve) return;
      try {
        worker ??= new Worker(new URL('./price-worker.ts', import.meta.url), { type: 'module' });
        worker.onmessage = ({ data }: MessageEvent<Minutes>) => settle(resolve, data);
        worker.onerror = () => settle(resolve, undefined);
        worker.postMessage(request);
      } catch {
        settle(resolve, undefined);
      }
    }, restMilliseconds);
  });
}

function settle(resolve: (minutes: Minutes | undefined) => void, minutes: Minutes | undefined): void {
  if (last === resolve) last = undefined;
  resolve(minutes);
}

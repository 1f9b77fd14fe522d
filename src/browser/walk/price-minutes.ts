import { trustScript } from '../kit/trusted.ts';
import type { Minutes, PriceRequest } from './price-worker.ts';
import workerAddress from './price-worker.ts?worker&url';

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
        worker ??= new Worker(trustScript(workerAddress), { type: 'module' });
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

import { messageSW } from 'workbox-window';
import type { WorkerAnswers, WorkerQuestion } from '#core/offline/worker-message.ts';

/** Asks the offline worker. It is of our own build and gives the answer of the question's name. */
export function askWorker<T extends WorkerQuestion['type']>(
  worker: ServiceWorker,
  question: { readonly type: T },
): Promise<WorkerAnswers[T]> {
  return messageSW(worker, question);
}

import type { WorkerAnswers, WorkerQuestion } from '#core/offline/worker-message.ts';

/** Asks the offline worker. It is of our own build and gives the answer of the question's name. */
export function askWorker<T extends WorkerQuestion['type']>(
  worker: ServiceWorker,
  question: { readonly type: T },
): Promise<WorkerAnswers[T]> {
  return new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = ({ data }: MessageEvent<WorkerAnswers[T]>) => resolve(data);
    worker.postMessage(question, [port2]);
  });
}

import { trustScript } from '../kit/trusted.ts';
import type { DraftAnswer, DraftData, DraftQuestion, DraftReply, DraftRequest } from './draft-worker.ts';
import workerAddress from './draft-worker.ts?worker&url';

/**
 * Asks a worker one question after another. The answer is `too-long` if the worker had to be ended, `failed` if it could
 * not start or not answer.
 */
export type DraftReader = (question: DraftQuestion) => Promise<DraftAnswer | 'too-long' | 'failed'>;

/** Starting reads the library, whose size no pasted text changes. */
const openMilliseconds = 20_000;

/**
 * Opens a reader. A question that takes longer than `limitMilliseconds` ends the worker, whatever it is doing, and another
 * worker starts.
 */
export function openDraftReader(data: DraftData, limitMilliseconds: number): DraftReader {
  let current = startWorker(data);
  let last: Promise<unknown> = Promise.resolve();
  const askNow: DraftReader = async (question) => {
    const { worker, isOpen } = current;
    if (!(await isOpen)) return 'failed';
    const reply = await waitForReply(worker, limitMilliseconds, { question });
    if (reply !== undefined) return 'draft' in reply || 'drawing' in reply || 'worth' in reply ? reply : 'failed';
    worker.terminate();
    current = startWorker(data);
    return 'too-long';
  };
  return (question) => {
    const next = last.then(() => askNow(question));
    last = next.catch(() => undefined);
    return next;
  };
}

function startWorker(data: DraftData): { readonly worker: Worker; readonly isOpen: Promise<boolean> } {
  const worker = new Worker(trustScript(workerAddress), { type: 'module' });
  const reply = waitForReply(worker, openMilliseconds, { kind: 'open', data });
  return { worker, isOpen: reply.then((said) => said?.kind === 'done') };
}

/** A worker's reply; undefined after an error, or when the time is over. */
function waitForReply(
  worker: Worker,
  limitMilliseconds: number,
  request: DraftRequest,
): Promise<DraftReply | undefined> {
  return new Promise((resolve) => {
    const stop = (reply?: DraftReply): void => {
      clearTimeout(timer);
      worker.removeEventListener('message', onMessage);
      worker.removeEventListener('error', onError);
      resolve(reply);
    };
    const onMessage = ({ data }: MessageEvent<DraftReply>): void => stop(data);
    const onError = (): void => stop();
    // Messages that waited while the page itself was busy come in before the second, short timer.
    let timer = setTimeout(() => {
      timer = setTimeout(stop, 50);
    }, limitMilliseconds - 50);
    worker.addEventListener('message', onMessage);
    worker.addEventListener('error', onError);
    worker.postMessage(request);
  });
}

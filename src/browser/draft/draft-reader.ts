import type { DraftData } from './draft-data.ts';
import type { DraftQuestion, DraftReply, DraftRequest } from './draft-worker.ts';

type Answer = Exclude<DraftReply, { readonly kind: 'done' }>;

/** Asks a worker one question after another. */
export interface DraftReader {
  /** The answer; `too-long` where the worker was ended and a new one started; `failed` where none could be had. */
  readonly ask: (question: DraftQuestion) => Promise<Answer | 'too-long' | 'failed'>;
}

/** Starting reads the library, which no pasted text makes longer. */
const openMilliseconds = 20_000;

/**
 * Opens a reader. No question takes longer than `limitMilliseconds`: then the worker is ended, whatever it is at, and
 * another takes its place.
 */
export function openDraftReader(data: DraftData, limitMilliseconds: number): DraftReader {
  let current = startWorker(data);
  let count = 0;
  let last: Promise<unknown> = Promise.resolve();

  const askNow = async (question: DraftQuestion): Promise<Answer | 'too-long' | 'failed'> => {
    const { worker, isOpen } = current;
    if (!(await isOpen)) return 'failed';
    count += 1;
    const number = count;
    const reply = await new Promise<Answer | 'too-long'>((resolve) => {
      const listen = ({ data: message }: MessageEvent<DraftReply>): void => {
        if (message.kind === 'done' || message.number !== number) return;
        stop(message);
      };
      const watchdog = setTimer(limitMilliseconds, () => stop('too-long'));
      const stop = (outcome: Answer | 'too-long'): void => {
        watchdog.clear();
        worker.removeEventListener('message', listen);
        resolve(outcome);
      };
      worker.addEventListener('message', listen);
      worker.postMessage({ number, question } satisfies DraftRequest);
    });
    if (reply === 'too-long') {
      worker.terminate();
      current = startWorker(data);
    }
    return reply !== 'too-long' && reply.kind === 'failed' ? 'failed' : reply;
  };

  return {
    ask: (question) => {
      const next = last.then(() => askNow(question));
      last = next.catch(() => undefined);
      return next;
    },
  };
}

function startWorker(data: DraftData): { readonly worker: Worker; readonly isOpen: Promise<boolean> } {
  const worker = new Worker(new URL('./draft-worker.ts', import.meta.url), { type: 'module' });
  const isOpen = new Promise<boolean>((resolve) => {
    const timer = setTimer(openMilliseconds, () => resolve(false));
    worker.addEventListener('error', () => resolve(false), { once: true });
    worker.addEventListener(
      'message',
      () => {
        timer.clear();
        resolve(true);
      },
      { once: true },
    );
  });
  worker.postMessage({ kind: 'open', data } satisfies DraftRequest);
  return { worker, isOpen };
}

/** A timer that first lets in the messages that waited while the page itself was busy. */
function setTimer(milliseconds: number, ring: () => void): { readonly clear: () => void } {
  let timer = setTimeout(() => {
    timer = setTimeout(ring, 50);
  }, milliseconds - 50);
  return { clear: () => clearTimeout(timer) };
}

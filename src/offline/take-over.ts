import { holdsAnswers } from '#core/offline/holds-answers.ts';
import type { AtWorkQuestion } from '#core/offline/worker-message.ts';
import { worker } from './scope.ts';

/** A window that sleeps in the background does not reply: then the address it was opened with has to do. */
const longestWaitMilliseconds = 1000;

/**
 * Lets this waiting version take over, unless another window has a job open: it would change under that person's hands.
 * @param asking the window in which “Use it now” was pressed
 */
export async function takeOver(asking: string): Promise<boolean> {
  const windows = await worker.clients.matchAll({ type: 'window', includeUncontrolled: true });
  const others = await Promise.all(windows.filter(({ id }) => id !== asking).map(isAtWork));
  if (others.includes(true)) return false;
  // Not waited for: the page hears of it when the worker has become its own.
  void worker.skipWaiting();
  return true;
}

/** Asks the window itself: the address that a worker sees of it is the one it was opened with. */
function isAtWork(client: Client): Promise<boolean> {
  return new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = ({ data }: MessageEvent<unknown>) => resolve(data === true);
    setTimeout(() => resolve(holdsAnswers(new URL(client.url).hash)), longestWaitMilliseconds);
    client.postMessage({ type: 'at-work' } satisfies AtWorkQuestion, [port2]);
  });
}

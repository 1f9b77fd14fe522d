import { holdsAnswers } from '#core/offline/holds-answers.ts';
import { worker } from './scope.ts';

/**
 * Lets this waiting version take over, unless another window has a job open: it would change under that person's hands.
 * @param asking the window in which “Use it now” was pressed
 */
export async function takeOver(asking: string): Promise<boolean> {
  const windows = await worker.clients.matchAll({ type: 'window', includeUncontrolled: true });
  if (windows.some(({ id, url }) => id !== asking && holdsAnswers(new URL(url).hash))) return false;
  // Not waited for: the page hears of it when the worker has become its own.
  void worker.skipWaiting();
  return true;
}

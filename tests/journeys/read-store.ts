import type { Page } from 'playwright-core';

/** An event as the browser's database holds it; the other fields are those of its kind. */
export interface StoredEvent {
  readonly kind: string;
  readonly job: string;
  readonly [field: string]: unknown;
}

/** What the browser's own database holds, past all of our code: kinds of events, in the order of their ids. */
export async function readStore(page: Page): Promise<readonly StoredEvent[]> {
  return page.evaluate(async () =>
    // Opening what is not there yet would make it, without its stores.
    (await indexedDB.databases()).length === 0
      ? []
      : new Promise((resolve, reject) => {
          const opening = indexedDB.open('halfsplit-log');
          opening.onerror = () => reject(new Error('not opened'));
          opening.onsuccess = () => {
            const request = opening.result.transaction('events').objectStore('events').getAll();
            request.onsuccess = () => {
              opening.result.close();
              // A row holds one event, or many.
              resolve(request.result.flatMap((row) => row.batch ?? [row]));
            };
          };
        }),
  );
}

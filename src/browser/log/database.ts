import { type DBSchema, type IDBPDatabase, type IDBPTransaction, openDB } from 'idb';
import type { LogEvent } from '#core/log/event.ts';

/** One event under its own id, or up to some hundred of one job under an id of their own: a browser is slow with many rows. */
export type EventRow = LogEvent | { readonly id: string; readonly job: string; readonly batch: readonly LogEvent[] };

/** The log in IndexedDB: rows of events by id, photographs by id, both with an index on their job. */
export interface LogSchema extends DBSchema {
  events: { key: string; value: EventRow; indexes: { job: string } };
  photos: {
    key: string;
    value: { readonly id: string; readonly job: string; readonly image: Blob };
    indexes: { job: string };
  };
}

export type LogDatabase = IDBPDatabase<LogSchema>;

const name = 'halfsplit-log';
const version = 1;
/** A browser that neither opens nor refuses within this time counts as refusing. */
const patienceMilliseconds = 5000;

let opening: Promise<LogDatabase | undefined> | undefined;

/** The database, opened once a page; undefined where the browser refuses it. */
export function openDatabase(): Promise<LogDatabase | undefined> {
  opening ??= open();
  return opening;
}

async function open(): Promise<LogDatabase | undefined> {
  try {
    const opened = openDB<LogSchema>(name, version, {
      upgrade(database) {
        database.createObjectStore('events', { keyPath: 'id' }).createIndex('job', 'job');
        database.createObjectStore('photos', { keyPath: 'id' }).createIndex('job', 'job');
      },
      // A later version of the page waits in another tab: let it have the database, and open it again when next needed.
      blocking(_current, _blocked, event) {
        opening = undefined;
        if (event.target instanceof IDBDatabase) event.target.close();
      },
      terminated() {
        opening = undefined;
      },
    });
    const late = new Promise<undefined>((resolve) => setTimeout(() => resolve(undefined), patienceMilliseconds));
    return await Promise.race([opened, late]);
  } catch {
    return undefined;
  }
}

type StoreName = 'events' | 'photos';
type Change<Name extends StoreName> = IDBPTransaction<LogSchema, [Name], 'readwrite'>;

const changes = new Set<{ readonly abort: () => void }>();

/** Begins a change of one store. `strict`: told as done only when it lies on the disk, so that a crash or a flat battery afterwards loses nothing. */
export function beginChange<Name extends StoreName>(database: LogDatabase, name: Name): Change<Name> {
  const change = database.transaction(name, 'readwrite', { durability: 'strict' });
  changes.add(change);
  const end = (): unknown => changes.delete(change);
  change.done.then(end, end);
  return change;
}

// A page that is left may be kept as it is, to come back to. WebKit then keeps its unfinished change too, and every other page
// waits for it. So the change is given up: the code that began it gets an error, and the next page writes the notes.
addEventListener('pagehide', ({ persisted }) => {
  if (persisted) for (const change of changes) change.abort();
});

/** Whether a change was given up because its page was left, and not because the browser had no room. */
export function wasGivenUp(error: unknown): boolean {
  return error instanceof DOMException && error.name === 'AbortError';
}

/**
 * Does something while no other tab does it under the same name. Where storage is refused so are locks, and no other tab could see what
 * is done: then it is simply done. Throws where `waitMilliseconds` pass before the other tab lets go.
 */
export async function withLock<Result>(
  name: string,
  act: () => Promise<Result>,
  waitMilliseconds?: number,
): Promise<Result> {
  if (!('locks' in navigator) || (await openDatabase()) === undefined) return act();
  const options = waitMilliseconds === undefined ? {} : { signal: AbortSignal.timeout(waitMilliseconds) };
  return navigator.locks.request(name, options, act);
}

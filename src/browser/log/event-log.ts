import { type EventDraft, type LogEvent, readStoredEvents, stampEvents } from '#core/log/event.ts';
import { mergeHistories } from '#core/log/history.ts';
import { canKeep, read, write } from '../kit/storage.ts';
import { beginChange, type EventRow, type LogDatabase, openDatabase, wasGivenUp } from './database.ts';

/**
 * Where the log is kept: `kept` in the browser's database; `full` when the database took no more; `refused` when there is none.
 * In the last two cases what is new is held in this tab, and only a file saves it.
 */
export type LogCondition = 'kept' | 'full' | 'refused';

export interface StoredPhoto {
  readonly id: string;
  readonly job: string;
  readonly image: Blob;
}

/** Name of this tab in the ids it gives: 41 random bits, so that two tabs never give one id twice. */
const device = Array.from(crypto.getRandomValues(new Uint8Array(8)), (byte) => (byte % 36).toString(36)).join('');
let counter = 0;
const heldPhotos = new Map<string, StoredPhoto>();

const channel = typeof BroadcastChannel === 'undefined' ? undefined : new BroadcastChannel('halfsplit.log');

/** Whether the log can be kept, as the last attempt showed. */
export async function findCondition(): Promise<LogCondition> {
  if ((await openDatabase()) === undefined) return 'refused';
  return heldEvents().length > 0 || heldPhotos.size > 0 ? 'full' : 'kept';
}

/** Says that the log cannot be kept, and until when it lasts; empty where it is kept. */
export function sayCondition(condition: LogCondition): string {
  const until = canKeep('heldEvents') ? 'as long as this tab is open' : 'until you leave this page';
  if (condition === 'full') return `No room is left in this browser: what is new lasts only ${until}.`;
  return condition === 'refused'
    ? `This browser keeps nothing (a private window, or storage is switched off): what you enter lasts only ${until}.`
    : '';
}

/** Events in order, and how many stored ones could not be read. */
export interface History {
  readonly events: readonly LogEvent[];
  readonly unread: number;
}

/** The history of one job or of all. */
export async function readHistory(job?: string): Promise<History> {
  const stored = await readDatabase(job);
  const { events, unread } = readStoredEvents(stored);
  const held = heldEvents().filter((event) => job === undefined || event.job === job);
  return { events: mergeHistories(events, held), unread };
}

/** Adds what happened to a job `now` (milliseconds since 1970), tells the other tabs, and gives back the history of the job. */
export async function addToJob(
  job: string,
  drafts: readonly EventDraft[],
  now = Date.now(),
): Promise<readonly LogEvent[]> {
  const { events: history } = await readHistory(job);
  const stamped = stampEvents(history, job, drafts, { now, device, counter });
  counter += drafts.length;
  // What could not be read back is not written in the first place.
  const added = readStoredEvents(stamped).events;
  await addEvents(added);
  return [...history, ...added];
}

/** A new name for a job or a photograph. */
export function makeId(): string {
  counter += 1;
  return `${Date.now().toString(36)}-${device}-${counter.toString(36)}`;
}

/**
 * Adds events as they are. Nothing that is stored is ever overwritten: an id that is there already stays. What the database does not
 * take is held in this tab, and brought in with the next event that it does take.
 */
export async function addEvents(events: readonly LogEvent[]): Promise<void> {
  const database = await openDatabase();
  const all = [...heldEvents(), ...events];
  if (database !== undefined && (await insert(database, all))) {
    const taken = new Set(all.map(({ id }) => id));
    releaseEvents(({ id }) => taken.has(id));
  } else holdEvents(events);
  for (const job of new Set(events.map(({ job: of }) => of))) channel?.postMessage(job);
}

/** Keeps a photograph; false where there is no room, and then it lasts until the page is left. */
export async function addPhoto(photo: StoredPhoto): Promise<boolean> {
  const database = await openDatabase();
  try {
    if (database === undefined) throw new Error('No database.');
    const change = beginChange(database, 'photos');
    await Promise.all([change.store.put(photo), change.done]);
    return true;
  } catch {
    heldPhotos.set(photo.id, photo);
    return false;
  }
}

/** Photographs of one job or of all. */
export async function readPhotos(job?: string): Promise<readonly StoredPhoto[]> {
  const database = await openDatabase();
  const held = [...heldPhotos.values()].filter((photo) => job === undefined || photo.job === job);
  try {
    const stored =
      (await (job === undefined ? database?.getAll('photos') : database?.getAllFromIndex('photos', 'job', job))) ?? [];
    return [...stored.filter(({ image }) => image instanceof Blob), ...held];
  } catch {
    return held;
  }
}

/** Ids of all photographs, without their pictures. */
export async function listPhotos(): Promise<ReadonlySet<string>> {
  const database = await openDatabase();
  const stored = (await database?.getAllKeys('photos').catch(() => [])) ?? [];
  return new Set([...stored, ...heldPhotos.keys()]);
}

/** Takes a whole job out of this browser, photographs too. The one thing that cannot be taken back. */
export async function removeJob(job: string): Promise<boolean> {
  releaseEvents((event) => event.job === job);
  for (const photo of heldPhotos.values()) if (photo.job === job) heldPhotos.delete(photo.id);
  const database = await openDatabase();
  try {
    for (const name of ['events', 'photos'] as const) {
      if (database === undefined) break;
      const keys = await database.getAllKeysFromIndex(name, 'job', job);
      const change = beginChange(database, name);
      await Promise.all([...keys.map((key) => change.store.delete(key)), change.done]);
    }
    channel?.postMessage(job);
    return true;
  } catch {
    return false;
  }
}

/** Calls back when another tab has changed a job. */
export function watchLog(onChange: (job: string) => void): void {
  channel?.addEventListener('message', ({ data }) => {
    if (typeof data === 'string') onChange(data);
  });
}

/** What the database holds, hostile until read: events, and rows of many events laid flat. */
async function readDatabase(job: string | undefined): Promise<readonly unknown[]> {
  try {
    const database = await openDatabase();
    const rows =
      (await (job === undefined ? database?.getAll('events') : database?.getAllFromIndex('events', 'job', job))) ?? [];
    return rows.flatMap((row): readonly unknown[] => ('batch' in row && Array.isArray(row.batch) ? row.batch : [row]));
  } catch {
    return [];
  }
}

/** False where the browser takes no more. Throws where the page was left meanwhile: nothing was written. */
async function insert(database: LogDatabase, events: readonly LogEvent[]): Promise<boolean> {
  try {
    const change = beginChange(database, 'events');
    const known = new Set(await change.store.getAllKeys());
    const rows = makeRows(events).filter(({ id }) => !known.has(id));
    await Promise.all([...rows.map((row) => change.store.add(row)), change.done]);
    return true;
  } catch (error) {
    if (wasGivenUp(error)) throw error;
    return false;
  }
}

const mostOfRow = 500;

/**
 * A few events are a row each. The rest are rows of many, of one job each; one that another tab brings in at the same time then lies
 * there twice, and is one again when it is read.
 */
function makeRows(events: readonly LogEvent[]): readonly EventRow[] {
  return [...Map.groupBy(events, ({ job }) => job)].flatMap(([job, all]): readonly EventRow[] => {
    if (all.length < 20) return all;
    const count = Math.ceil(all.length / mostOfRow);
    return Array.from({ length: count }, (_, index) => {
      return { id: makeId(), job, batch: all.slice(index * mostOfRow, (index + 1) * mostOfRow) };
    });
  });
}

/**
 * Events that the database did not take: held in this tab, in its session storage where that is allowed, else until the page is left.
 */
let held: readonly LogEvent[] | undefined;

function heldEvents(): readonly LogEvent[] {
  held ??= parseHeld(read('heldEvents'));
  return held;
}

function holdEvents(events: readonly LogEvent[]): void {
  held = [...heldEvents(), ...events];
  write('heldEvents', JSON.stringify(held));
}

function releaseEvents(isReleased: (event: LogEvent) => boolean): void {
  held = heldEvents().filter((event) => !isReleased(event));
  write('heldEvents', held.length === 0 ? undefined : JSON.stringify(held));
}

function parseHeld(text: string | undefined): readonly LogEvent[] {
  try {
    const value: unknown = text === undefined ? [] : JSON.parse(text);
    return Array.isArray(value) ? readStoredEvents(value).events : [];
  } catch {
    return [];
  }
}

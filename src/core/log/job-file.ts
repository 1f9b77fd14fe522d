import * as v from 'valibot';
import { isRecord } from '../model/read-record.ts';
import { eventSchema, type LogEvent, parseEvent, upgradeEvent } from './event.ts';

/** Version that this program writes. A file of an earlier one is brought up step by step by `upgrades` before it is read. */
const fileVersion = 3;

/** A photograph as a file carries it: JPEG, base64. */
export interface FiledPhoto {
  readonly id: string;
  readonly job: string;
  readonly data: string;
}

/** What a file of the bench log holds: one job or all. */
export interface JobFile {
  readonly events: readonly LogEvent[];
  readonly photos: readonly FiledPhoto[];
}

export type ReadJobFileResult =
  | { readonly kind: 'file'; readonly file: JobFile }
  /** One or two sentences: what is wrong with the file, and that nothing was changed. */
  | { readonly kind: 'refused'; readonly message: string };

const mostBytes = 64_000_000;
const mostEvents = 50_000;
const mostPhotos = 500;

const photoSchema = v.strictObject({
  id: v.pipe(v.string('an id'), v.regex(/^[A-Za-z0-9~._-]{1,80}$/, 'an id')),
  job: v.pipe(v.string('an id'), v.regex(/^[A-Za-z0-9~._-]{1,80}$/, 'an id')),
  // A JPEG begins with FF D8 FF (ITU-T T.81, B.1.1.3), in base64 with `/9j/`.
  data: v.pipe(
    v.string('base64'),
    v.maxLength(4_000_000, 'at most 4,000,000 characters'),
    v.check((data) => data.length % 4 === 0, 'a JPEG in base64'),
    // No group repeats: the browser's stack would not hold a million rounds.
    v.regex(/^\/9j\/[A-Za-z0-9+/]*={0,2}$/, 'a JPEG in base64'),
  ),
});

/** The file as it is written today, for the published JSON Schema. */
export const jobFileSchema = v.strictObject({
  format: v.literal('bench-log'),
  version: v.literal(fileVersion),
  made: v.pipe(
    v.string(),
    v.maxLength(40),
    v.metadata({ format: 'date-time' }),
    v.description('When the file was made, ISO 8601.'),
  ),
  events: v.pipe(v.array(eventSchema), v.minLength(1), v.maxLength(mostEvents)),
  photos: v.pipe(v.array(photoSchema), v.maxLength(mostPhotos)),
});

/**
 * How a file of version `n` becomes one of version `n + 1`, by `n`. If you raise `fileVersion`, add the step here and keep a file
 * of the old version in the tests.
 */
const upgrades: Readonly<Record<number, (file: Record<string, unknown>) => Record<string, unknown>>> = {
  1: (file) => ({
    ...file,
    version: 2,
    events: Array.isArray(file['events'])
      ? file['events'].map((event: unknown) => (isRecord(event) ? upgradeEvent(event) : event))
      : file['events'],
  }),
  // Version 3 brought drawings of boards; what was there before is as it was.
  2: (file) => ({ ...file, version: 3 }),
};

/** The file of some events and photographs, as text: JSON that the published schema describes. `made` is a time in ISO 8601. */
export function printJobFile({ events, photos }: JobFile, made: string): string {
  return `${JSON.stringify({ format: 'bench-log', version: fileVersion, made, events, photos }, undefined, 1)}\n`;
}

/**
 * Reads a file of the bench log. Hostile until read: nothing throws, and a file is taken whole or not at all; a file of a newer
 * version, and one that is damaged or something else, is refused with a message. The inverse of `printJobFile`.
 */
export function readJobFile(text: string): ReadJobFileResult {
  if (text.length > mostBytes) return refuse('The file is larger than 64 MB.');
  const plain = text.startsWith('\uFEFF') ? text.slice(1) : text;
  if (plain.trim() === '') return refuse('The file is empty.');
  const parsed = parseJson(plain);
  if (parsed === undefined) return refuse('This is not JSON, or it is cut off.');
  if (!isRecord(parsed.value) || parsed.value['format'] !== 'bench-log') {
    return refuse('This is JSON, but not a bench-log file: `format` is not `bench-log`.');
  }
  const upgraded = upgrade(parsed.value);
  return typeof upgraded === 'string' ? refuse(upgraded) : readParts(upgraded);
}

function upgrade(file: Record<string, unknown>): Record<string, unknown> | string {
  const version = file['version'];
  if (typeof version !== 'number' || !Number.isInteger(version)) return 'The file does not say its version.';
  if (version > fileVersion) {
    return `The file is of version ${version}, newer than this page knows (${fileVersion}). Reload the page while online, then import again.`;
  }
  let upgraded = file;
  for (let from = version; from < fileVersion; from += 1) {
    const step = Object.hasOwn(upgrades, from) ? upgrades[from] : undefined;
    if (step === undefined) return `The file says version ${version}; no such version was ever written.`;
    upgraded = step(upgraded);
  }
  return upgraded;
}

function readParts(file: Record<string, unknown>): ReadJobFileResult {
  const stranger = Object.keys(file).find((key) => !['format', 'version', 'made', 'events', 'photos'].includes(key));
  if (stranger !== undefined) return refuse(`The file holds “${show(stranger)}”, which no bench log has.`);
  if (!v.is(v.string(), file['made']) || Number.isNaN(Date.parse(file['made'])) || file['made'].length > 40) {
    return refuse('The file does not say when it was made.');
  }
  const events = readList(file['events'], 'events', mostEvents, parseEvent);
  if (typeof events === 'string') return refuse(events);
  const photos = readList(file['photos'], 'photos', mostPhotos, (photo) =>
    v.safeParse(photoSchema, photo, { abortEarly: true, abortPipeEarly: true }),
  );
  if (typeof photos === 'string') return refuse(photos);
  for (const [name, ids] of [
    ['Event', events.map(({ id }) => id)] as const,
    ['Photo', photos.map(({ id }) => id)] as const,
  ]) {
    const twice = findTwice(ids);
    if (twice !== undefined) return refuse(`${name} “${show(twice)}” stands in the file twice.`);
  }
  if (events.length === 0) return refuse('The file holds no events.');
  return { kind: 'file', file: { events, photos } };
}

function readList<Item>(
  value: unknown,
  name: string,
  most: number,
  parse: (item: object) => v.SafeParseResult<v.GenericSchema<unknown, Item>>,
): readonly Item[] | string {
  if (!Array.isArray(value)) return `The file has no list of ${name}.`;
  const list: readonly unknown[] = value;
  if (list.length > most) return `The file holds ${list.length} ${name}; at most ${most} are read.`;
  const items: Item[] = [];
  for (const [index, item] of list.entries()) {
    const where = `Number ${index + 1} of the ${name}`;
    if (!isRecord(item)) return `${where} is not an object.`;
    // JSON can give an object a key that every object seems to have already.
    const inherited = Object.keys(item).find((key) => key in Object.prototype);
    if (inherited !== undefined) return `${where} has the key “${show(inherited)}”, which is not allowed.`;
    const result = parse(item);
    if (!result.success) return `${where} ${sayIssue(result.issues[0])}`;
    items.push(result.output);
  }
  return items;
}

/** What does not fit, as the end of a sentence that begins with what it is about. */
function sayIssue(issue: v.BaseIssue<unknown>): string {
  const path = show(issue.path?.map(({ key }) => String(key)).join('.') ?? '');
  if (issue.type === 'strict_object' && issue.expected === 'never')
    return `has “${path}”, which does not belong there.`;
  if (issue.type === 'strict_object') return `lacks “${path}”.`;
  if (issue.type === 'variant') return `is of a kind that this page does not know (“${path}”).`;
  return `does not fit at “${path}”: expected ${show(issue.message)}.`;
}

function parseJson(text: string): { readonly value: unknown } | undefined {
  try {
    return { value: JSON.parse(text) };
  } catch {
    return undefined;
  }
}

function findTwice(ids: readonly string[]): string | undefined {
  const seen = new Set<string>();
  return ids.find((id) => seen.size === seen.add(id).size);
}

function refuse(message: string): ReadJobFileResult {
  return { kind: 'refused', message: `${message} Nothing was imported, and your log is as it was.` };
}

function show(text: string): string {
  return text.length > 80 ? `${text.slice(0, 80)}…` : text;
}

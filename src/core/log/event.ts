import * as v from 'valibot';
import { placementSchema } from '../model/placement-schema.ts';
import { isRecord } from '../model/read-record.ts';

/** Longest texts of an event, in characters (code points). */
export const textLimits = { short: 120, line: 300, long: 4000 } as const;

/** May be empty: in a form that is saved again, an empty field takes the earlier text away. */
const field = (atMost: number) =>
  v.pipe(
    v.string('a text'),
    v.check((value) => value.length <= atMost || [...value].length <= atMost, `at most ${atMost} characters`),
    // What a check cannot tell the JSON Schema.
    v.metadata({ maxLength: atMost }),
  );
const text = (atMost: number) => v.pipe(field(atMost), v.nonEmpty('a text that is not empty'));
const short = text(textLimits.short);
const line = text(textLimits.line);
const long = text(textLimits.long);
const slug = v.pipe(
  v.string('a slug'),
  v.regex(/^[a-z0-9]+(?:-[a-z0-9]+)*$/, 'small letters, digits and single hyphens'),
  v.maxLength(60, 'at most 60 characters'),
);
const id = v.pipe(
  v.string('an id'),
  v.regex(/^[A-Za-z0-9~._-]{1,80}$/, 'an id of at most 80 letters, digits and ~ . _ -'),
);
const time = v.pipe(
  v.string('a time'),
  v.regex(/^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}\.\d{3}Z$/, 'a time as 2026-01-31T12:00:00.000Z'),
  v.check(isTime, 'a time that exists'),
  v.metadata({ format: 'date-time' }),
);
const amount = (atMost: number) =>
  v.pipe(v.number('a number'), v.finite('a finite number'), v.minValue(0, 'at least 0'), v.maxValue(atMost));
const count = v.pipe(amount(1_000_000), v.integer('a whole number'));
const exposure = v.picklist(['outside', 'inside-covered', 'inside-bare', 'unknown'], 'where the mains is');

const head = { id, job: id, at: time, device: id };

/** What can make a fault go away without anything being changed. */
export const disturbances = ['reseated', 'cleaned', 'warmed', 'cooled', 'flexed'] as const;

/** How the fault showed, from which the proof is computed. */
const showing = v.variant('how', [
  v.strictObject({ how: v.literal('always') }),
  v.strictObject({ how: v.literal('hours'), meanHours: v.pipe(amount(100_000), v.gtValue(0, 'above 0')) }),
  v.strictObject({
    how: v.literal('starts'),
    seen: v.pipe(count, v.minValue(1, 'at least 1')),
    starts: v.pipe(count, v.minValue(1, 'at least 1')),
  }),
]);

const kinds = [
  v.strictObject({ ...head, kind: v.literal('opened'), symptom: v.optional(line) }),
  v.strictObject({
    ...head,
    kind: v.literal('unit'),
    maker: v.optional(field(textLimits.short)),
    model: v.optional(field(textLimits.short)),
    serial: v.optional(field(textLimits.short)),
    revision: v.optional(field(textLimits.short)),
    slug: v.optional(v.union([v.literal(''), slug], 'a slug, or empty')),
    description: v.optional(field(textLimits.line)),
  }),
  v.strictObject({
    ...head,
    kind: v.literal('intake'),
    symptom: v.optional(field(textLimits.line)),
    said: v.optional(field(textLimits.long)),
    changed: v.optional(field(textLimits.long)),
    before: v.optional(field(textLimits.long)),
    keep: v.optional(field(textLimits.line)),
    mains: v.optional(exposure),
    /** What a first plug asks was answered for this unit: its slug, or empty where it has no file. */
    plugged: v.optional(v.union([v.literal(''), slug], 'a slug, or empty')),
    /** 0 takes the limit away. */
    limitHours: v.optional(amount(10_000)),
    limitMoney: v.optional(field(textLimits.short)),
  }),
  v.strictObject({ ...head, kind: v.literal('point'), point: slug, name: v.optional(line) }),
  /** Which processor, memory, regulator or plug the unit has; without `part` it is not known any more. */
  v.strictObject({ ...head, kind: v.literal('chip'), chip: slug, part: v.optional(slug) }),
  /** The boards as the reader drew them, whole; without `placement` the drawing is taken away. */
  v.strictObject({ ...head, kind: v.literal('placement'), placement: v.optional(placementSchema) }),
  v.strictObject({
    ...head,
    kind: v.literal('meter'),
    check: v.picklist(['leads-shorted', 'fresh-cell', 'known-part'], 'a check of the meter'),
    reading: v.optional(short),
    isGood: v.boolean('true or false'),
  }),
  v.strictObject({
    ...head,
    kind: v.literal('answer'),
    tree: slug,
    treeTitle: v.optional(short),
    node: slug,
    stage: v.optional(slug),
    /** As in a fragment: a word, a quantity, or several joined by commas (see answer/answer.ts). */
    value: v.pipe(
      v.string('an answer'),
      v.regex(/^-?[A-Za-z0-9.-]{1,40}(?:,-?[A-Za-z0-9.-]{1,40}){0,39}$/, 'a word or a quantity as `4.71V`'),
    ),
    question: v.optional(line),
    /** A class of instruments, or `own-0.5-2`: per cent and counts. */
    instrument: v.optional(
      v.pipe(
        v.string('an instrument'),
        v.regex(/^[a-z0-9]+(?:[.-][a-z0-9]+)*$/, 'a class of instruments'),
        v.maxLength(60, 'at most 60 characters'),
      ),
    ),
    /** The words of the button that was pressed, where they are more than the word of the answer. */
    said: v.optional(line),
    /** What a reading came to. */
    verdict: v.optional(line),
  }),
  v.strictObject({
    ...head,
    kind: v.literal('repair'),
    tree: slug,
    cause: slug,
    title: v.optional(line),
    part: v.optional(line),
    tested: v.picklist(['yes', 'no', 'no-part'], '`yes`, `no` or `no-part`'),
  }),
  v.strictObject({
    ...head,
    kind: v.literal('result'),
    repair: id,
    /** `cured-by-disturbance`: it works again after something was only touched, so the cause is not proved. */
    result: v.picklist(
      ['cured', 'cured-by-disturbance', 'same', 'worse'],
      '`cured`, `cured-by-disturbance`, `same` or `worse`',
    ),
    /** What the disturbance was. */
    acts: v.optional(
      v.pipe(v.array(v.picklist(disturbances, 'a way of disturbing'), 'a list'), v.maxLength(5), v.readonly()),
    ),
    /** What was touched, in the person's words: `J4, IC3`. */
    touched: v.optional(line),
  }),
  v.strictObject({ ...head, kind: v.literal('rework'), fault: slug, isFound: v.boolean('true or false') }),
  v.strictObject({
    ...head,
    kind: v.literal('part'),
    /** Id of the event that first named the part; missing in that event. */
    part: v.optional(id),
    name: v.optional(line),
    status: v.picklist(
      ['wanted', 'ordered', 'arrived', 'tested-good', 'tested-bad', 'not-to-be-had'],
      'a state of a part',
    ),
  }),
  v.strictObject({
    ...head,
    kind: v.literal('proof'),
    showing,
    /** Hours run, clean starts in a row, or 1 for seen once in order. */
    done: amount(1_000_000),
    isClean: v.boolean('true or false'),
  }),
  v.strictObject({ ...head, kind: v.literal('note'), text: long }),
  v.strictObject({ ...head, kind: v.literal('photo'), photo: id, caption: v.optional(line), bytes: count }),
  v.strictObject({ ...head, kind: v.literal('waiting'), what: line }),
  v.strictObject({ ...head, kind: v.literal('resumed') }),
  v.strictObject({
    ...head,
    kind: v.literal('closed'),
    how: v.picklist(['cured', 'cured-by-disturbance', 'handed-over', 'stopped'], 'how the job ended'),
    summary: v.optional(long),
  }),
  v.strictObject({ ...head, kind: v.literal('undo'), of: id }),
] as const;

/**
 * One thing that happened in a job. A history is a set of these, never changed and never deleted: what is taken back is revoked by an
 * `undo`. Times are UTC in ISO 8601 with milliseconds; `device` names the tab that wrote it. The published JSON Schema
 * (public/data/schema/bench-log.json) is made from this.
 */
export const eventSchema = v.variant('kind', kinds);

/** A parsed event. */
export type LogEvent = Readonly<v.InferOutput<typeof eventSchema>>;
export type EventKind = LogEvent['kind'];
export type EventOf<Kind extends EventKind> = Extract<LogEvent, { readonly kind: Kind }>;
export type Showing = EventOf<'proof'>['showing'];
export type RepairResult = EventOf<'result'>['result'];
export type Disturbance = (typeof disturbances)[number];
export type PartStatus = EventOf<'part'>['status'];

/** What happened, before it is stamped with an id, a time and a device. */
export type EventDraft = LogEvent extends infer Event
  ? Event extends LogEvent
    ? Omit<Event, 'id' | 'job' | 'at' | 'device'>
    : never
  : never;

/** Whether a time of the right shape exists, by the Gregorian calendar (ISO 8601): Date.parse reads 30 February as 1 March. */
function isTime(value: string): boolean {
  const digits = (from: number, to = from + 2): number => Number(value.slice(from, to));
  const [year, month, day] = [digits(0, 4), digits(5), digits(8)];
  const isLeap = year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
  const days = month === 2 ? (isLeap ? 29 : 28) : [4, 6, 9, 11].includes(month) ? 30 : 31;
  return month >= 1 && month <= 12 && day >= 1 && day <= days && digits(11) < 24 && digits(14) < 60 && digits(17) < 60;
}

/** Who writes, when, and how many events this tab wrote before: passed in, since core knows neither clock nor chance. */
export interface Stamp {
  /** Milliseconds since 1970, UTC. */
  readonly now: number;
  /** A random name of the tab, letters and digits. */
  readonly device: string;
  /** Counts up with every event of this tab. */
  readonly counter: number;
}

/**
 * The events that drafts become in the history of `job`, one after the other. No time is before that of the job's last event, even
 * where the clock was set back, so that what is done later also comes later.
 */
export function stampEvents(
  history: readonly LogEvent[],
  job: string,
  drafts: readonly EventDraft[],
  { now, device, counter }: Stamp,
): readonly LogEvent[] {
  let last = history.reduce((latest, { at, job: of }) => (of === job ? Math.max(latest, Date.parse(at)) : latest), 0);
  return drafts.map((draft, index) => {
    last = Math.min(Math.max(now, last + (last > now ? 1 : 0)), lastTime);
    const id = `${last.toString(36).padStart(9, '0')}-${device}-${(counter + index).toString(36).padStart(4, '0')}`;
    return { ...draft, id, job, at: new Date(last).toISOString(), device };
  });
}

/** The last millisecond whose year has four digits. */
const lastTime = Date.parse('9999-12-31T23:59:59.999Z');

const byKind = new Map<unknown, (typeof kinds)[number]>(kinds.map((schema) => [schema.entries.kind.literal, schema]));

/** Reads one event, hostile until read; the first thing that does not fit ends it. */
export function parseEvent(value: object): v.SafeParseResult<typeof eventSchema> {
  // The kind is looked up: a variant tries one after the other, which is ten times slower.
  const schema = ('kind' in value ? byKind.get(value.kind) : undefined) ?? eventSchema;
  return v.safeParse(schema, value, { abortEarly: true, abortPipeEarly: true });
}

/**
 * An event of version 1 as one of version 2: the known unit was `board` and is `slug`, and the words of the button were quoted in front
 * of the verdict and are `said`. Anything else is given back as it is.
 */
export function upgradeEvent(value: Record<string, unknown>): Record<string, unknown> {
  // Most are neither.
  if (value['kind'] !== 'unit' && value['kind'] !== 'answer') return value;
  const { board, verdict, ...rest } = value;
  if (value['kind'] === 'unit' && board !== undefined && value['slug'] === undefined) return { ...rest, slug: board };
  if (value['kind'] !== 'answer' || typeof verdict !== 'string' || value['said'] !== undefined) return value;
  const [, said, behind = ''] = /^“([^”]{1,300})”(?:; (.*))?$/su.exec(verdict) ?? [];
  return said === undefined ? value : { ...rest, said, ...(behind === '' ? {} : { verdict: behind }) };
}

/**
 * Events as the browser's store gave them back, of any version and hostile until read: those that fit, and how many did not. What does
 * not fit stays in the store untouched, since a newer version of the page may have written it.
 */
export function readStoredEvents(stored: readonly unknown[]): {
  readonly events: readonly LogEvent[];
  readonly unread: number;
} {
  const events = stored.flatMap((item) => {
    const result = isRecord(item) ? parseEvent(upgradeEvent(item)) : undefined;
    return result?.success === true ? [result.output] : [];
  });
  return { events, unread: stored.length - events.length };
}

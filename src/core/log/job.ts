import { keyOfAnswer } from '../answer/answer.ts';
import type { MainsExposure } from '../model/library.ts';
import type { Placement } from '../model/placement.ts';
import type { EventKind, EventOf, LogEvent, PartStatus } from './event.ts';
import { compareEvents, compareTexts, findRevoked } from './history.ts';

/** A job as it stands now: what its history comes to. */
export interface Job {
  readonly id: string;
  readonly openedAt: string;
  /** Time of the last event. */
  readonly changedAt: string;
  readonly state: JobState;
  readonly symptom: string | undefined;
  readonly unit: Unit;
  readonly intake: Intake;
  /** The person's own names of test points, by slug of the point. */
  readonly points: Readonly<Record<string, string>>;
  /** Which chips the unit has: slug of chips.yaml to slug of a part. */
  readonly chips: Readonly<Record<string, string>>;
  /** The boards as the reader drew them. */
  readonly placement: Placement | undefined;
  /** The last check of the meter of each kind. */
  readonly meter: readonly EventOf<'meter'>[];
  /** The answer that stands for each question, in the order of answering. */
  readonly answers: readonly EventOf<'answer'>[];
  readonly repairs: readonly RepairDone[];
  /** Rework faults looked for, the last word on each. */
  readonly rework: readonly EventOf<'rework'>[];
  readonly parts: readonly Part[];
  readonly proofs: readonly EventOf<'proof'>[];
  readonly notes: readonly EventOf<'note'>[];
  readonly photos: readonly EventOf<'photo'>[];
  /** Every event of the job in order, with those that were taken back. */
  readonly timeline: readonly TimelineEntry[];
}

export type JobState =
  | { readonly kind: 'open' }
  | { readonly kind: 'waiting'; readonly what: string }
  | { readonly kind: 'closed'; readonly how: EventOf<'closed'>['how']; readonly summary: string | undefined };

export interface Unit {
  readonly maker: string | undefined;
  readonly model: string | undefined;
  readonly serial: string | undefined;
  readonly revision: string | undefined;
  readonly slug: string | undefined;
  readonly description: string | undefined;
}

/** What was asked before the case was opened. */
export interface Intake {
  /** The owner's words. */
  readonly said: string | undefined;
  readonly changed: string | undefined;
  /** Who was in there before. */
  readonly before: string | undefined;
  /** What must not be lost. */
  readonly keep: string | undefined;
  readonly mains: MainsExposure | undefined;
  /** Slug of the unit for which mains voltage and long sleep were asked before its plug went in; empty where it has no file. */
  readonly plugged: string | undefined;
  readonly limitHours: number | undefined;
  readonly limitMoney: string | undefined;
}

export interface RepairDone {
  readonly event: EventOf<'repair'>;
  /** What came of it, the last word; undefined while it is not proved. */
  readonly result: EventOf<'result'> | undefined;
}

export interface Part {
  /** Id of the event that first named it. */
  readonly id: string;
  readonly name: string;
  readonly status: PartStatus;
}

export interface TimelineEntry {
  readonly event: LogEvent;
  readonly isRevoked: boolean;
}

/** The jobs of a history, the last changed first. A job needs no opening: events of one that was lost make a job all the same. */
export function replayJobs(history: readonly LogEvent[]): readonly Job[] {
  const byJob = Map.groupBy(history, ({ job }) => job);
  return [...byJob]
    .map(([id, events]) => replayEvents(id, events))
    .sort((one, other) => compareTexts(other.changedAt, one.changedAt) || compareTexts(one.id, other.id));
}

/** What the events of one job come to. Their order in the list does not matter; events of other jobs are left out. */
export function replayEvents(id: string, history: readonly LogEvent[]): Job {
  const events = history.filter(({ job }) => job === id).sort(compareEvents);
  const revoked = findRevoked(events);
  const standing = events.filter(({ id: event, kind }) => kind !== 'undo' && !revoked.has(event));
  const all = <Kind extends EventKind>(kind: Kind): readonly EventOf<Kind>[] =>
    standing.filter((event): event is EventOf<Kind> => event.kind === kind);
  const intakes = all('intake');
  return {
    id,
    openedAt: events[0]?.at ?? '',
    changedAt: events.at(-1)?.at ?? '',
    state: findState(standing),
    symptom: lastText([...all('opened'), ...intakes].map(({ symptom }) => symptom)),
    unit: readUnit(all('unit')),
    intake: readIntake(intakes),
    points: Object.fromEntries(
      [...lastBy(all('point'), ({ point }) => point)].flatMap(([point, { name }]) =>
        name === undefined ? [] : [[point, name] as const],
      ),
    ),
    chips: Object.fromEntries(
      [...lastBy(all('chip'), ({ chip }) => chip)].flatMap(([chip, { part }]) =>
        part === undefined ? [] : [[chip, part] as const],
      ),
    ),
    placement: all('placement').at(-1)?.placement,
    meter: [...lastBy(all('meter'), ({ check }) => check).values()],
    answers: [...lastBy(all('answer'), keyOfAnswer).values()],
    repairs: readRepairs(all('repair'), all('result')),
    rework: [...lastBy(all('rework'), ({ fault }) => fault).values()],
    parts: readParts(all('part')),
    proofs: all('proof'),
    notes: all('note'),
    photos: all('photo'),
    timeline: events.map((event) => ({ event, isRevoked: revoked.has(event.id) })),
  };
}

/** The event that Undo takes back next: the last one that still stands; undefined where only the opening is left. */
export function findLastStanding({ timeline }: Pick<Job, 'timeline'>): LogEvent | undefined {
  return timeline.findLast(({ event: { kind }, isRevoked }) => !isRevoked && kind !== 'undo' && kind !== 'opened')
    ?.event;
}

/** The undo that Redo takes back: the last event that still stands, where that is an undo. */
export function findLastUndo({ timeline }: Pick<Job, 'timeline'>): LogEvent | undefined {
  const last = timeline.findLast(({ isRevoked }) => !isRevoked)?.event;
  return last?.kind === 'undo' ? last : undefined;
}

/** What takes back every undo of an event, so that it stands again. */
export function findUndosOf({ timeline }: Pick<Job, 'timeline'>, id: string): readonly LogEvent[] {
  return timeline.flatMap(({ event, isRevoked }) =>
    !isRevoked && event.kind === 'undo' && event.of === id ? [event] : [],
  );
}

/** The last of each key, in the order of these last ones. */
function lastBy<Event>(events: readonly Event[], keyOf: (event: Event) => string): ReadonlyMap<string, Event> {
  const last = new Map<string, Event>();
  for (const event of events) {
    last.delete(keyOf(event));
    last.set(keyOf(event), event);
  }
  return last;
}

function findState(standing: readonly LogEvent[]): JobState {
  const last = standing.findLast(({ kind }) => kind === 'waiting' || kind === 'resumed' || kind === 'closed');
  if (last?.kind === 'waiting') return { kind: 'waiting', what: last.what };
  if (last?.kind === 'closed') return { kind: 'closed', how: last.how, summary: last.summary };
  return { kind: 'open' };
}

/** Forms hold what was changed only, so that two tabs do not undo each other; an empty text takes the earlier one away. */
function readUnit(units: readonly EventOf<'unit'>[]): Unit {
  const last = <Key extends keyof Unit>(key: Key): string | undefined => lastText(units.map((unit) => unit[key]));
  return {
    maker: last('maker'),
    model: last('model'),
    serial: last('serial'),
    revision: last('revision'),
    slug: last('slug'),
    description: last('description'),
  };
}

function readIntake(intakes: readonly EventOf<'intake'>[]): Intake {
  const hours = intakes.findLast(({ limitHours }) => limitHours !== undefined)?.limitHours;
  return {
    said: lastText(intakes.map(({ said }) => said)),
    changed: lastText(intakes.map(({ changed }) => changed)),
    before: lastText(intakes.map(({ before }) => before)),
    keep: lastText(intakes.map(({ keep }) => keep)),
    mains: intakes.findLast(({ mains }) => mains !== undefined)?.mains,
    plugged: intakes.findLast(({ plugged }) => plugged !== undefined)?.plugged,
    limitHours: hours === 0 ? undefined : hours,
    limitMoney: lastText(intakes.map(({ limitMoney }) => limitMoney)),
  };
}

function lastText(texts: readonly (string | undefined)[]): string | undefined {
  const last = texts.findLast((text) => text !== undefined);
  return last === '' ? undefined : last;
}

function readRepairs(
  repairs: readonly EventOf<'repair'>[],
  results: readonly EventOf<'result'>[],
): readonly RepairDone[] {
  const lastByRepair = new Map(results.map((result) => [result.repair, result] as const));
  return repairs.map((event) => ({ event, result: lastByRepair.get(event.id) }));
}

function readParts(events: readonly EventOf<'part'>[]): readonly Part[] {
  const parts = new Map<string, Part>();
  for (const { id, part = id, name, status } of events) {
    const known = parts.get(part);
    parts.set(part, { id: part, name: name ?? known?.name ?? 'A part', status });
  }
  return [...parts.values()];
}

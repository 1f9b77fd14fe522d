import { isRecord, readRecord } from '../model/read-record.ts';
import type { MainsExposure } from '../model/library.ts';

/** What every page must know of the open job at once, without opening the store: small enough for localStorage. */
export interface JobBrief {
  readonly id: string;
  readonly name: string;
  /** Milliseconds since 1970 of the last event. */
  readonly changedAt: number;
  readonly mains: MainsExposure | undefined;
  /** See `Intake` in job.ts. */
  readonly plugged: string | undefined;
  /** What must not be lost, in the owner's words. */
  readonly keep: string | undefined;
  /** Hours the owner gives, and hours at the bench when the brief was made. */
  readonly limitHours: number | undefined;
  readonly benchHours: number;
  /** How many answers stand. */
  readonly answers: number;
  /** Trees in which the job has answers or repairs. */
  readonly trees: readonly string[];
  /** Own names of test points, by slug. */
  readonly points: Readonly<Record<string, string>>;
  /** Chips of the unit: slug of chips.yaml to slug of a part. */
  readonly chips: Readonly<Record<string, string>>;
  /** The boards as the reader drew them, as JSON for `readPlacement`. */
  readonly placement: string | undefined;
  /** For the page of a cause: repairs done and not yet answered for, `tree/cause` to the event's id. */
  readonly unproved: Readonly<Record<string, string>>;
}

/** Reads a brief back. Hostile until read: undefined for anything that is none. */
export function readJobBrief(text: string | undefined): JobBrief | undefined {
  if (text === undefined || text.length > 100_000) return undefined;
  const value = readRecord(text);
  if (value === undefined) return undefined;
  const {
    id,
    name,
    changedAt,
    mains,
    plugged,
    keep,
    limitHours,
    benchHours,
    answers,
    trees,
    points,
    chips,
    placement,
    unproved,
  } = value;
  if (typeof id !== 'string' || !/^[A-Za-z0-9~._-]{1,80}$/.test(id) || typeof name !== 'string') return undefined;
  return {
    id,
    name: name.slice(0, 80),
    changedAt: typeof changedAt === 'number' && Number.isFinite(changedAt) ? changedAt : 0,
    mains:
      mains === 'outside' || mains === 'inside-covered' || mains === 'inside-bare' || mains === 'unknown'
        ? mains
        : undefined,
    plugged: typeof plugged === 'string' ? plugged.slice(0, 60) : undefined,
    keep: typeof keep === 'string' ? keep.slice(0, 300) : undefined,
    limitHours: typeof limitHours === 'number' && limitHours > 0 ? limitHours : undefined,
    benchHours: typeof benchHours === 'number' && benchHours > 0 ? benchHours : 0,
    answers: typeof answers === 'number' ? answers : 0,
    trees: Array.isArray(trees) ? trees.filter((tree) => typeof tree === 'string') : [],
    points: readTexts(points),
    chips: readTexts(chips),
    placement: typeof placement === 'string' ? placement : undefined,
    unproved: readTexts(unproved),
  };
}

/** Texts by their keys, each at most 300 characters; empty for anything that is none. */
export function readTexts(value: unknown): Readonly<Record<string, string>> {
  if (!isRecord(value)) return {};
  return Object.fromEntries(
    Object.entries(value).flatMap(([key, text]) =>
      typeof text === 'string' ? [[key, text.slice(0, 300)] as const] : [],
    ),
  );
}

/** What a job may cost in time, and has cost. */
export interface TimeLimit {
  /** Hours the owner gives; undefined where nothing was said. */
  readonly limitHours: number | undefined;
  /** Hours at the bench so far, as logged. */
  readonly benchHours: number;
}

const goodEnds = 'handing over, keeping it as a donor, or putting it away labelled are good ends too.';

/**
 * What the limit of a job says to going on for `minutes` more; undefined where there is none, or where it leaves room enough. Without
 * minutes it speaks only once the limit is reached.
 */
export function sayLimit({ limitHours, benchHours }: TimeLimit, minutes = 0): string | undefined {
  if (limitHours === undefined) return undefined;
  const left = Math.round((limitHours - benchHours) * 60);
  if (left <= 0) return `The limit of ${limitHours} h is reached: ${goodEnds}`;
  if (minutes <= left) return undefined;
  return `Of this job’s limit of ${limitHours} h, ${left} minutes are left. Ask the owner before you go on: ${goodEnds}`;
}

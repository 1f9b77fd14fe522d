import { isRecord, readRecord } from '../model/read-record.ts';
import type { MainsExposure } from '../model/library.ts';

/** What every page must know of the open job at once, without opening the store: small enough for localStorage. */
export interface JobBrief {
  readonly id: string;
  readonly name: string;
  /** Milliseconds since 1970 of the last event. */
  readonly changedAt: number;
  readonly mains: MainsExposure | undefined;
  /** What must not be lost, in the owner's words. */
  readonly keep: string | undefined;
  /** Hours the owner gives, and hours at the bench when the brief was made. */
  readonly limitHours: number | undefined;
  readonly benchHours: number;
  /** How many answers stand. */
  readonly answers: number;
  /** Own names of test points, by slug. */
  readonly points: Readonly<Record<string, string>>;
  /** For the page of a cause: repairs done and not yet answered for, `tree/cause` to the event's id. */
  readonly unproved: Readonly<Record<string, string>>;
}

/** Reads a brief back. Hostile until read: undefined for anything that is none. */
export function readJobBrief(text: string | undefined): JobBrief | undefined {
  if (text === undefined || text.length > 100_000) return undefined;
  const value = readRecord(text);
  if (value === undefined) return undefined;
  const { id, name, changedAt, mains, keep, limitHours, benchHours, answers, points, unproved } = value;
  if (typeof id !== 'string' || !/^[A-Za-z0-9~._-]{1,80}$/.test(id) || typeof name !== 'string') return undefined;
  return {
    id,
    name: name.slice(0, 80),
    changedAt: typeof changedAt === 'number' && Number.isFinite(changedAt) ? changedAt : 0,
    mains:
      mains === 'outside' || mains === 'inside-covered' || mains === 'inside-bare' || mains === 'unknown'
        ? mains
        : undefined,
    keep: typeof keep === 'string' ? keep.slice(0, 300) : undefined,
    limitHours: typeof limitHours === 'number' && limitHours > 0 ? limitHours : undefined,
    benchHours: typeof benchHours === 'number' && benchHours > 0 ? benchHours : 0,
    answers: typeof answers === 'number' ? answers : 0,
    points: readTexts(points),
    unproved: readTexts(unproved),
  };
}

function readTexts(value: unknown): Readonly<Record<string, string>> {
  if (!isRecord(value)) return {};
  return Object.fromEntries(
    Object.entries(value).flatMap(([key, text]) =>
      typeof text === 'string' ? [[key, text.slice(0, 300)] as const] : [],
    ),
  );
}

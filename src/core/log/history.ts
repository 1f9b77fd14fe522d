import { fnv1a } from '../model/fnv.ts';
import type { LogEvent } from './event.ts';

/**
 * Two histories as one: every event of both, each once, in the one order. Commutative, associative and idempotent, so copies that
 * were written apart and brought together in any order end alike. Where two events bear the same id and say different things
 * (a forged or damaged file), both stay: the first by content keeps the id, the other's id gets a mark made from its content.
 */
export function mergeHistories(one: readonly LogEvent[], other: readonly LogEvent[]): readonly LogEvent[] {
  const byId = new Map<string, LogEvent[]>();
  const conflicts = new Set<string>();
  for (const event of [...one, ...other]) {
    const alike = byId.get(event.id);
    if (alike === undefined) byId.set(event.id, [event]);
    else if (!alike.some((known) => known === event || spell(known) === spell(event))) {
      alike.push(event);
      conflicts.add(event.id);
    }
  }
  // Nearly always: only those that conflict cost more than a look-up.
  if (conflicts.size === 0) return [...byId.values()].flat().sort(compareEvents);
  const merged = new Map<string, LogEvent>();
  for (const alike of byId.values()) {
    const [first, ...rest] = alike.toSorted((a, b) => compareTexts(spell(a), spell(b)));
    for (const event of [...(first === undefined ? [] : [first]), ...rest.map(markId)]) merged.set(spell(event), event);
  }
  return [...merged.values()].sort(compareEvents);
}

/**
 * The events of `foreign` that `own` does not hold. One that bears the id of an own event and says something else comes along under
 * a marked id: nothing own is touched, nothing foreign is lost.
 */
export function findNewEvents(own: readonly LogEvent[], foreign: readonly LogEvent[]): readonly LogEvent[] {
  const held = new Map(own.map((event) => [event.id, event] as const));
  return mergeHistories(foreign, []).flatMap((event) => {
    const known = held.get(event.id);
    if (known === undefined) return [event];
    if (spell(known) === spell(event)) return [];
    const marked = markId(event);
    return held.has(marked.id) ? [] : [marked];
  });
}

function markId(event: LogEvent): LogEvent {
  const mark = `~${hash(spell(event))}`;
  return { ...event, id: event.id.slice(0, 80 - mark.length) + mark };
}

/** 53 bits of a text as base 36: two rounds with different offsets; no secret, only a name. */
function hash(text: string): string {
  return (fnv1a(text) * 0x200000 + (fnv1a(text, 0x1b873593) >>> 11)).toString(36);
}

/**
 * Ids of the events that were taken back. An `undo` revokes the event it names unless it was taken back itself; an undo of an undo
 * counts only where it stands later, so that two undos naming each other cannot make a circle. The opening of a job, and an event of
 * another job, cannot be revoked.
 */
export function findRevoked(history: readonly LogEvent[]): ReadonlySet<string> {
  const byId = new Map(history.map((event) => [event.id, event] as const));
  const revoked = new Set<string>();
  for (const event of history.toSorted(compareEvents).reverse()) {
    if (event.kind !== 'undo' || revoked.has(event.id)) continue;
    const target = byId.get(event.of);
    if (target === undefined || target.kind === 'opened' || target.job !== event.job) continue;
    if (target.kind === 'undo' && compareEvents(target, event) >= 0) continue;
    revoked.add(target.id);
  }
  return revoked;
}

/** The one order of a history: by time, then by id, then by content, so that two copies of a history are ordered alike. */
export function compareEvents(one: LogEvent, other: LogEvent): number {
  return compareTexts(one.at, other.at) || compareTexts(one.id, other.id) || compareTexts(spell(one), spell(other));
}

/**
 * The content of an event as text that does not depend on the order of its keys, nor on keys that are undefined.
 * @example spell({ kind: 'resumed', id: 'b', … }) === spell({ id: 'b', kind: 'resumed', … })
 */
export function spell(event: LogEvent): string {
  return JSON.stringify(sortKeys(event));
}

/** Texts by their code units, in every browser alike. */
export function compareTexts(one: string, other: string): number {
  return one < other ? -1 : one > other ? 1 : 0;
}

function sortKeys(value: unknown): unknown {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return value;
  return Object.fromEntries(
    Object.entries(value)
      .sort(([one], [other]) => compareTexts(one, other))
      .map(([key, inner]) => [key, sortKeys(inner)]),
  );
}

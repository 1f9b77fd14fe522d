import type { LogEvent } from './event.ts';

/** The one order of a history: by time, then by id, then by content, so that two copies of a history are ordered alike. */
export function compareEvents(one: LogEvent, other: LogEvent): number {
  return compareText(one.at, other.at) || compareText(one.id, other.id) || compareText(spell(one), spell(other));
}

/**
 * The content of an event as text that does not depend on the order of its keys, nor on keys that are undefined.
 * @example spell({ kind: 'resumed', id: 'b', … }) === spell({ id: 'b', kind: 'resumed', … })
 */
export function spell(event: LogEvent): string {
  return JSON.stringify(sortKeys(event));
}

function compareText(one: string, other: string): number {
  return one < other ? -1 : one > other ? 1 : 0;
}

function sortKeys(value: unknown): unknown {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return value;
  return Object.fromEntries(
    Object.entries(value)
      .sort(([one], [other]) => compareText(one, other))
      .map(([key, inner]) => [key, sortKeys(inner)]),
  );
}

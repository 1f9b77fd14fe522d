import type { LogEvent } from './event.ts';
import { compareEvents, spell } from './order-events.ts';

/**
 * Two histories as one: every event of both, each once, in the one order. Commutative, associative and idempotent, so copies that
 * were written apart and brought together in any order end alike. Where two events bear the same id and say different things
 * (a forged or damaged file), both stay: the first by content keeps the id, the other's id gets a mark made from its content.
 */
export function mergeHistories(one: readonly LogEvent[], other: readonly LogEvent[]): readonly LogEvent[] {
  const byId = new Map<string, Map<string, LogEvent>>();
  for (const event of [...one, ...other]) {
    const alike = byId.get(event.id) ?? new Map<string, LogEvent>();
    byId.set(event.id, alike.set(spell(event), event));
  }
  const merged = new Map<string, LogEvent>();
  for (const alike of byId.values()) {
    const [first, ...rest] = [...alike].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, event]) => event);
    for (const event of [...(first === undefined ? [] : [first]), ...rest.map(markId)]) {
      merged.set(spell(event), event);
    }
  }
  return [...merged.values()].sort(compareEvents);
}

/**
 * The events of `foreign` that `own` does not hold. One that bears the id of an own event and says something else comes along under
 * a marked id: nothing own is touched, nothing foreign is lost.
 */
export function findNewEvents(own: readonly LogEvent[], foreign: readonly LogEvent[]): readonly LogEvent[] {
  const held = new Map(own.map((event) => [event.id, spell(event)] as const));
  return mergeHistories(foreign, []).flatMap((event) => {
    const known = held.get(event.id);
    if (known === undefined) return [event];
    if (known === spell(event)) return [];
    const marked = markId(event);
    return held.has(marked.id) ? [] : [marked];
  });
}

function markId(event: LogEvent): LogEvent {
  const mark = `~${hash(spell(event))}`;
  return { ...event, id: event.id.slice(0, 80 - mark.length) + mark };
}

/** 53 bits of a text as base 36: two rounds of FNV-1a (Fowler, Noll, Vo) with different offsets; no secret, only a name. */
function hash(text: string): string {
  const round = (offset: number): number => {
    let sum = offset;
    for (let index = 0; index < text.length; index += 1) {
      sum = Math.imul(sum ^ text.charCodeAt(index), 0x01000193);
    }
    return sum >>> 0;
  };
  return (round(0x811c9dc5) * 0x200000 + (round(0x1b873593) >>> 11)).toString(36);
}

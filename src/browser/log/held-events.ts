import type { LogEvent } from '#core/bench-log/event.ts';
import { readStoredEvents } from '#core/bench-log/read-stored-events.ts';
import { read, write } from '../kit/storage.ts';

/**
 * Events that the database did not take: held in this tab, in its session storage where that is allowed, else until the page is left.
 */
let held: readonly LogEvent[] | undefined;

export function heldEvents(): readonly LogEvent[] {
  held ??= parseHeld(read('heldEvents'));
  return held;
}

export function holdEvents(events: readonly LogEvent[]): void {
  held = [...heldEvents(), ...events];
  write('heldEvents', JSON.stringify(held));
}

export function releaseEvents(isReleased: (event: LogEvent) => boolean): void {
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

import * as v from 'valibot';
import { eventSchema, type LogEvent } from './event.ts';

/**
 * Events as the browser's store gave them back, hostile until read: those that fit, and how many did not. What does not fit stays in
 * the store untouched, since a newer version of the page may have written it.
 */
export function readStoredEvents(stored: readonly unknown[]): {
  readonly events: readonly LogEvent[];
  readonly unread: number;
} {
  const events = stored.flatMap((item) => {
    const result = v.safeParse(eventSchema, item);
    return result.success ? [result.output] : [];
  });
  return { events, unread: stored.length - events.length };
}

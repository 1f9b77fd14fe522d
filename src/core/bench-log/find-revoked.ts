import type { LogEvent } from './event.ts';
import { compareEvents } from './order-events.ts';

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

/** The event that Undo takes back next: the last one of the job that still stands; undefined where only the opening is left. */
export function findLastStanding(history: readonly LogEvent[], job: string): LogEvent | undefined {
  const revoked = findRevoked(history);
  return history
    .toSorted(compareEvents)
    .findLast(
      (event) => event.job === job && event.kind !== 'undo' && event.kind !== 'opened' && !revoked.has(event.id),
    );
}

/** The undo that Redo takes back: the job's last event, where that is an undo which still counts. */
export function findLastUndo(history: readonly LogEvent[], job: string): LogEvent | undefined {
  const revoked = findRevoked(history);
  const standing = history.toSorted(compareEvents).filter((event) => event.job === job && !revoked.has(event.id));
  const last = standing.at(-1);
  return last?.kind === 'undo' ? last : undefined;
}

import type { EventDraft, LogEvent } from './event.ts';
import { compareEvents } from './order-events.ts';

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
 * The event that a draft becomes in the history of `job`. Its time is never before that of the job's last event, even where the
 * clock was set back, so that what is done later also stands later.
 */
export function stampEvent(history: readonly LogEvent[], job: string, draft: EventDraft, stamp: Stamp): LogEvent {
  const last = history.reduce((latest, { at, job: of }) => (of === job ? Math.max(latest, Date.parse(at)) : latest), 0);
  const time = Math.min(Math.max(stamp.now, last + (last > stamp.now ? 1 : 0)), lastTime);
  return {
    ...draft,
    id: `${time.toString(36).padStart(9, '0')}-${stamp.device}-${stamp.counter.toString(36).padStart(4, '0')}`,
    job,
    at: new Date(time).toISOString(),
    device: stamp.device,
  };
}

/** A history with one more event, in order. The history given stays as it is. */
export function appendEvent(history: readonly LogEvent[], event: LogEvent): readonly LogEvent[] {
  return [...history, event].sort(compareEvents);
}

/** The last millisecond whose year has four digits. */
const lastTime = Date.parse('9999-12-31T23:59:59.999Z');

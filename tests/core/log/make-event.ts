import type { EventDraft, LogEvent } from '#core/log/event.ts';

/** An event of job `j`, its id `e<minute>`, at that minute of noon on one day. */
export function makeEvent(minute: number, draft: EventDraft, job = 'j'): LogEvent {
  const at = new Date(Date.UTC(2026, 0, 31, 12, minute)).toISOString();
  return { ...draft, id: `e${minute}`, job, at, device: 'tab' };
}

import { nameJob, nameState } from '#core/bench-log/name-job.ts';
import { replayJobs } from '#core/bench-log/replay-events.ts';
import { makeElement } from '../kit/elements.ts';
import { findOpenJob } from '../open-job.ts';
import { readHistory } from './event-log.ts';
import { makeTime } from './render-job.ts';

/** Fills the list of jobs and what is said about room; gives back what the reader must be told, if anything. */
export async function fillList(root: HTMLElement): Promise<string | undefined> {
  const { events, unread } = await readHistory();
  const jobs = replayJobs(events);
  const open = findOpenJob()?.id;
  root.querySelector('[data-none]')?.toggleAttribute('hidden', jobs.length > 0);
  root
    .querySelector('[data-jobs]')
    ?.replaceChildren(
      ...jobs.map((job) =>
        makeElement(
          'li',
          {},
          makeElement('a', { href: `#job=${job.id}` }, nameJob(job)),
          makeElement('span', {}, job.id === open ? `${nameState(job)}, open in this browser` : nameState(job)),
          makeTime(job.changedAt),
        ),
      ),
    );
  await fillRoom(root);
  return unread === 0
    ? undefined
    : `${unread} entries were written by a newer version of this page, or are damaged, and are not shown. They are kept.`;
}

/** Says how much of the browser's room is used, and offers to ask for keeps where that was not granted yet. */
export async function fillRoom(root: HTMLElement): Promise<void> {
  const { usage = 0, quota = 0 } = (await navigator.storage?.estimate?.().catch(() => undefined)) ?? {};
  const room = root.querySelector('[data-room]');
  const mega = (bytes: number): string => (bytes / 1e6).toFixed(bytes < 1e7 ? 1 : 0);
  if (room !== null && quota > 0) room.textContent = `Used here: ${mega(usage)} MB of ${mega(quota)} MB.`;
  const isKept = await navigator.storage?.persisted?.().catch(() => true);
  root.querySelector('[data-persist]')?.toggleAttribute('hidden', isKept !== false);
}

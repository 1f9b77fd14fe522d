import { replayJobs } from '#core/log/job.ts';
import { nameJob, nameState } from '#core/log/name-job.ts';
import { keepBench, readBench } from '../bench.ts';
import { makeElement } from '../kit/elements.ts';
import { findOpenJob } from '../open-job.ts';
import { type History, readHistory } from './event-log.ts';
import { keepRecent } from './job-desk.ts';
import { fillLong, makeTime } from './long-list.ts';

/** Fills the list of jobs from the whole log, which is read where it is not known, and what is said about room; gives back what the reader must be told, if anything. */
export async function fillList(root: HTMLElement, known?: History): Promise<string | undefined> {
  const { events, unread } = known ?? (await readHistory());
  const jobs = replayJobs(events);
  keepRecent(jobs.slice(0, 3), []);
  const open = findOpenJob()?.id;
  root.querySelector('[data-none]')?.toggleAttribute('hidden', jobs.length > 0);
  const list = root.querySelector<HTMLElement>('[data-jobs]');
  if (list !== null)
    fillLong(
      list,
      jobs,
      (job) =>
        makeElement(
          'li',
          {},
          makeElement('a', { href: `#job=${job.id}`, dir: 'auto' }, nameJob(job)),
          makeElement('bdi', {}, job.id === open ? `${nameState(job)}, open in this browser` : nameState(job)),
          makeTime(job.changedAt),
        ),
      true,
    );
  await fillRoom(root);
  return unread === 0
    ? undefined
    : `${unread} entries were written by a newer version of this page, or are damaged, and are not shown. They stay stored.`;
}

/** Says how much of the browser's room is used, and offers to ask for keeps where that was not granted yet. */
export async function fillRoom(root: HTMLElement): Promise<void> {
  const { usage = 0, quota = 0 } = (await navigator.storage?.estimate?.().catch(() => undefined)) ?? {};
  const room = root.querySelector('[data-room]');
  if (room !== null && quota > 0) room.textContent = `Using ${sayBytes(usage)} of about ${sayBytes(quota)}.`;
  const isKept = await navigator.storage?.persisted?.().catch(() => true);
  root.querySelector('[data-persist]')?.toggleAttribute('hidden', isKept !== false);
}

/** Fills the form of the bench from what is kept. */
export function fillBench(root: HTMLElement): void {
  const bench = readBench();
  for (const box of root.querySelectorAll<HTMLInputElement>('[name="instrument"]')) {
    box.checked = bench.instruments?.includes(box.value) ?? false;
  }
  for (const radio of root.querySelectorAll<HTMLInputElement>('[name="hertz"]')) {
    radio.checked = Number(radio.value) === bench.mainsHertz;
  }
}

/** Keeps what the form says, and says whether that was possible. */
export function takeBench(form: HTMLFormElement): string {
  const fields = new FormData(form);
  const hertz = fields.get('hertz');
  const instruments = fields.getAll('instrument').filter((slug) => typeof slug === 'string');
  const isKept = keepBench({
    // No box ticked is nothing said: nobody who measures owns nothing.
    instruments: instruments.length === 0 ? undefined : instruments,
    mainsHertz: hertz === '50' ? 50 : hertz === '60' ? 60 : undefined,
  });
  return isKept
    ? 'Saved. Checks and suggestions follow your bench.'
    : 'This browser saves nothing here; your choice lasts until you leave this page.';
}

/** @example sayBytes(10_737_000_000) // '11 GB' */
function sayBytes(bytes: number): string {
  const [size, unit] = bytes < 1e9 ? [bytes / 1e6, 'MB'] : [bytes / 1e9, 'GB'];
  return `${size.toFixed(size < 10 ? 1 : 0)} ${unit}`;
}

import type { EventDraft } from '#core/log/event.ts';
import { type Job, replayEvents, replayJobs } from '#core/log/job.ts';
import { makeJobBrief, nameJob, nameState } from '#core/log/name-job.ts';
import { findOpenJob, isJobHere } from '../open-job.ts';
import { forgetOpenJob, keepOpenJob, markJobHere } from '../recorder/tell-unit.ts';
import { chipsHere, giveMarks, mainsExposure, nameUnitHere, pluggedHere } from '../job-memory.ts';
import { write } from '../kit/storage.ts';
import { type RecentJob, readRecentJobs } from '../recent-jobs.ts';
import { withLock } from './database.ts';
import { addToJob, makeId, readHistory } from './event-log.ts';

const justBegunMilliseconds = 5000;

/** Begins a job and makes it the open one. */
export async function beginJob(drafts: readonly EventDraft[]): Promise<Job> {
  const id = makeId();
  return openJob(replayEvents(id, await addToJob(id, [{ kind: 'opened' }, ...drafts])));
}

/** Begins a job for the unit that this page is about: what its reader said and read of it here before goes with it. */
export async function beginJobHere(): Promise<Job> {
  const before = nameUnitHere();
  const mains = mainsExposure();
  const plugged = pluggedHere();
  const job = await beginJob([
    ...(mains === 'unknown' ? [] : [{ kind: 'intake', mains } as const]),
    ...(plugged === undefined ? [] : [{ kind: 'intake', plugged } as const]),
    ...Object.entries(chipsHere()).map(([chip, part]) => ({ kind: 'chip', chip, part }) as const),
  ]);
  giveMarks(before, job.id);
  return job;
}

/** Adds what happened to a job `at` a time (milliseconds since 1970), and brings what the other pages know of it up to date. */
export async function record(id: string, drafts: readonly EventDraft[], at = Date.now()): Promise<Job> {
  return refresh(replayEvents(id, await addToJob(id, drafts, at)));
}

/** Reads a job as it stands. */
export async function readJob(id: string): Promise<Job> {
  return replayEvents(id, (await readHistory(id)).events);
}

/** Makes a job the open one, in this tab seen by the reader. */
export function openJob(job: Job): Job {
  const brief = makeJobBrief(job);
  markJobHere(brief);
  keepOpenJob(brief);
  keepRecent([job]);
  return job;
}

/** The open job; where there is none, one is begun. Two tabs that answer at once begin one between them. */
export async function openOrBegin(): Promise<string> {
  const choose = async (): Promise<string> => {
    const open = findOpenJob();
    if (open !== undefined) return open.id;
    // The other tab's word in localStorage may be on its way still; what it wrote into the database is there.
    const justBegun = replayJobs((await readHistory()).events).find(
      ({ state, openedAt }) => state.kind === 'open' && Date.now() - Date.parse(openedAt) < justBegunMilliseconds,
    );
    if (justBegun !== undefined) return openJob(justBegun).id;
    return (await beginJobHere()).id;
  };
  return withLock('halfsplit.job-begin', choose);
}

function refresh(job: Job): Job {
  const { id } = job;
  if (findOpenJob()?.id === id) {
    if (job.state.kind === 'closed') forgetOpenJob();
    else {
      const brief = makeJobBrief(job);
      keepOpenJob(brief);
      if (isJobHere(id)) markJobHere(brief);
    }
  }
  keepRecent([job]);
  return job;
}

/** What the first page shows, so that it need not open the log: these jobs, the last changed first, before those it showed already. */
export function keepRecent(changed: readonly Job[], before: readonly RecentJob[] = readRecentJobs()): void {
  const jobs = changed.map((job) => ({ id: job.id, name: nameJob(job), state: nameState(job).slice(0, 120) }));
  const recent = [...jobs, ...before.filter(({ id }) => jobs.every((job) => job.id !== id))].slice(0, 3);
  write('recentJobs', recent.length === 0 ? undefined : JSON.stringify(recent));
}

import type { EventDraft } from '#core/bench-log/event.ts';
import type { Job } from '#core/bench-log/job.ts';
import { makeJobBrief } from '#core/bench-log/make-job-brief.ts';
import { nameJob, nameState } from '#core/bench-log/name-job.ts';
import { replayEvents, replayJobs } from '#core/bench-log/replay-events.ts';
import { findOpenJob, forgetOpenJob, isJobHere, keepOpenJob, markJobHere } from '../open-job.ts';
import { mainsExposure } from '../job-memory.ts';
import { write } from '../kit/storage.ts';
import { addToJob, makeId, readHistory } from './event-log.ts';
import { withLock } from './with-lock.ts';

const justBegunMilliseconds = 5000;

/** Begins a job and makes it the open one. */
export async function beginJob(drafts: readonly EventDraft[]): Promise<Job> {
  const id = makeId();
  await addToJob(id, [{ kind: 'opened' }, ...drafts]);
  return openJob(id);
}

/** Adds what happened to a job `at` a time (milliseconds since 1970), and brings what the other pages know of it up to date. */
export async function record(id: string, drafts: readonly EventDraft[], at = Date.now()): Promise<Job> {
  await addToJob(id, drafts, at);
  return refresh(id);
}

/** Reads a job as it stands. */
export async function readJob(id: string): Promise<Job> {
  return replayEvents(id, (await readHistory(id)).events);
}

/** Makes a job the open one, in this tab seen by the reader. */
export async function openJob(id: string): Promise<Job> {
  const job = await readJob(id);
  const brief = makeJobBrief(job);
  markJobHere(brief);
  keepOpenJob(brief);
  await keepRecent();
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
    if (justBegun !== undefined) return (await openJob(justBegun.id)).id;
    const mains = mainsExposure();
    return (await beginJob(mains === 'unknown' ? [] : [{ kind: 'intake', mains }])).id;
  };
  return withLock('halfsplit.job-begin', choose);
}

async function refresh(id: string): Promise<Job> {
  const job = await readJob(id);
  const open = findOpenJob();
  if (open?.id === id) {
    if (job.state.kind === 'closed') forgetOpenJob();
    else {
      const brief = makeJobBrief(job);
      keepOpenJob(brief);
      if (isJobHere(id)) markJobHere(brief);
    }
  }
  await keepRecent();
  return job;
}

/** What the first page shows, so that it need not open the log. */
export async function keepRecent(): Promise<void> {
  const jobs = replayJobs((await readHistory()).events).slice(0, 3);
  const recent = jobs.map((job) => ({ id: job.id, name: nameJob(job), state: nameState(job).slice(0, 120) }));
  write('recentJobs', recent.length === 0 ? undefined : JSON.stringify(recent));
}

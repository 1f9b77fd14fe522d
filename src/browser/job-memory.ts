import type { MainsExposure } from '#core/model/library.ts';
import { findOpenJob, isJobHere, keepOpenJob, read, write } from './open-job.ts';

/**
 * What is remembered while one unit is on the bench, in this tab only:
 * which stop cautions were read, and where the unit's mains is.
 */

const readKey = 'halfsplit.cautions-read';
const mainsKey = 'halfsplit.mains';

export function cautionsRead(): ReadonlySet<string> {
  return new Set((recall(readKey) ?? '').split(' ').filter((slug) => slug !== ''));
}

export function rememberCautionRead(slug: string): void {
  remember(readKey, [...cautionsRead(), slug].join(' '));
}

/**
 * Where the mains is: as the open job says, else as the reader said in this tab. `outside` takes a caution off the page, so a job says
 * that only where the reader saw in this tab that it is the job on the bench.
 */
export function mainsExposure(): MainsExposure {
  const job = findOpenJob();
  if (job?.mains !== undefined && (job.mains !== 'outside' || isJobHere(job.id))) return job.mains;
  const kept = recall(mainsKey);
  return kept === 'outside' || kept === 'inside-covered' || kept === 'inside-bare' ? kept : 'unknown';
}

/** Remembers it in this tab, and in the open job; `<job-recorder>` hears of it and writes it into the log. */
export function rememberMainsExposure(exposure: MainsExposure): void {
  remember(mainsKey, exposure);
  const job = findOpenJob();
  if (job === undefined || !isJobHere(job.id) || job.mains === exposure) return;
  keepOpenJob({ ...job, mains: exposure });
  window.dispatchEvent(new CustomEvent('job-mains', { detail: exposure }));
}

function recall(key: string): string | undefined {
  return read('session', key) ?? undefined;
}

function remember(key: string, value: string): void {
  write('session', key, value);
}

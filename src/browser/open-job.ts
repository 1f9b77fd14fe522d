import { type JobBrief, readJobBrief } from '#core/bench-log/job-brief.ts';

/**
 * The job that is open in this browser, as every page knows it at once. `halfsplit.job-open` holds its id for whoever only asks
 * whether there is one; the brief beside it is made anew from the log at every change.
 * Where the browser refuses storage, both last until the page is left.
 */
const openKey = 'halfsplit.job-open';
const briefKey = 'halfsplit.job-brief';
/** In this tab the reader saw which job is open, so that what it says about the unit is about the unit on the bench. */
const hereKey = 'halfsplit.job-here';

const fallback = new Map<string, string>();

/** The open job, or undefined. */
export function findOpenJob(): JobBrief | undefined {
  const id = read('local', openKey);
  const brief = readJobBrief(read('local', briefKey));
  return brief !== undefined && brief.id === id ? brief : undefined;
}

/** Makes a job the open one, or brings its brief up to date. */
export function keepOpenJob(brief: JobBrief): void {
  write('local', openKey, brief.id);
  write('local', briefKey, JSON.stringify(brief));
}

/** No job is open any more. */
export function forgetOpenJob(): void {
  write('local', openKey, undefined);
  write('local', briefKey, undefined);
}

/** Whether the reader saw in this tab that this job is the open one. */
export function isJobHere(id: string): boolean {
  return read('session', hereKey) === id;
}

/**
 * Remembers that the reader saw it: from here on this tab takes the job's word for where the mains is (job-memory.ts). That word may
 * take a caution off the page, so a job nobody looked at in this tab gives none.
 */
export function markJobHere(job: Pick<JobBrief, 'id' | 'mains'>): void {
  const isOther = !isJobHere(job.id);
  write('session', hereKey, job.id);
  if (isOther || job.mains !== undefined) write('session', 'halfsplit.mains', job.mains);
}

/** Reads a key of the tab's or the browser's own storage; null where it is missing or refused. */
export function read(area: 'local' | 'session', key: string): string | null {
  try {
    return storageOf(area).getItem(key) ?? fallback.get(key) ?? null;
  } catch {
    return fallback.get(key) ?? null;
  }
}

/** Writes a key, or takes it away; where that is refused it is remembered until the page is left. False says so. */
export function write(area: 'local' | 'session', key: string, value: string | undefined): boolean {
  fallback.delete(key);
  try {
    if (value === undefined) storageOf(area).removeItem(key);
    else storageOf(area).setItem(key, value);
    return true;
  } catch {
    if (value !== undefined) fallback.set(key, value);
    return false;
  }
}

function storageOf(area: 'local' | 'session'): Storage {
  return area === 'local' ? localStorage : sessionStorage;
}

import { type JobBrief, readJobBrief } from '#core/log/job-brief.ts';
import { read, write } from './kit/storage.ts';

/** The job that is open in this browser, as every page knows it at once; undefined where there is none. */
export function findOpenJob(): JobBrief | undefined {
  const id = read('jobOpen');
  const brief = readJobBrief(read('jobBrief'));
  return brief !== undefined && brief.id === id ? brief : undefined;
}

/** Makes a job the open one, or brings its brief up to date. */
export function keepOpenJob(brief: JobBrief): void {
  write('jobOpen', brief.id);
  write('jobBrief', JSON.stringify(brief));
}

/** No job is open any more. */
export function forgetOpenJob(): void {
  write('jobOpen', undefined);
  write('jobBrief', undefined);
}

/** Whether the reader saw in this tab that this job is the open one. */
export function isJobHere(id: string): boolean {
  return read('jobHere') === id;
}

/**
 * Remembers that the reader saw it: from here on this tab takes the job's word for where the mains is (job-memory.ts). That word may
 * take a caution off the page, so a job nobody looked at in this tab gives none.
 */
export function markJobHere(job: Pick<JobBrief, 'id' | 'mains'>): void {
  const isOther = !isJobHere(job.id);
  write('jobHere', job.id);
  if (isOther || job.mains !== undefined) write('mains', job.mains);
}

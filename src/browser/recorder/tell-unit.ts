import type { JobBrief } from '#core/log/job-brief.ts';
import { read, write } from '../kit/storage.ts';
import { findOpenJob, isUnitInDoubt } from '../open-job.ts';

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

/**
 * Remembers that the reader saw it: from here on this tab takes the job's word for where the mains is (job-memory.ts). That word may
 * take a caution off the page, so a job nobody looked at in this tab gives none.
 */
export function markJobHere(job: Pick<JobBrief, 'id' | 'mains'>): void {
  const before = read('jobHere');
  write('jobHere', job.id);
  if (before !== job.id || job.mains !== undefined)
    write('mains', job.mains === undefined ? undefined : `${job.mains} ${job.id}`);
}

const mostTreeUnits = 100;

/** Remembers in this tab that a tree is about the unit of a job, or that the reader has yet to say so. */
export function sayTreeUnit(job: string, tree: string, word: 'same' | 'ask'): void {
  const start = `${job} ${tree} `;
  const others = (read('treeUnits') ?? '').split('\n').filter((line) => line !== '' && !line.startsWith(start));
  write('treeUnits', [...others, `${start}${word}`].slice(-mostTreeUnits).join('\n'));
}

/**
 * A page of a tree that was opened by a link from elsewhere, with answers in it, while a job was open: they may be those of another
 * unit. Says whether it was.
 */
export function noteArrival(tree: string, jobBefore: string | undefined, hasAnswers: boolean): boolean {
  const job = findOpenJob();
  const [entry] = performance.getEntriesByType('navigation');
  const isOpened = entry instanceof PerformanceNavigationTiming && entry.type === 'navigate';
  if (
    job === undefined ||
    job.id !== jobBefore ||
    !hasAnswers ||
    !isOpened ||
    document.referrer.startsWith(`${location.origin}/`)
  )
    return false;
  sayTreeUnit(job.id, tree, 'ask');
  return true;
}

/** A link that takes readings of this tree into another is about the same unit. */
export function noteWayOut(tree: string, link: HTMLAnchorElement): void {
  const job = findOpenJob();
  const [, other] = /\/trees\/([a-z0-9-]{1,60})\//.exec(link.pathname) ?? [];
  const isCarried = link.hash
    .slice(1)
    .split('&')
    .some((pair) => pair.startsWith(`${tree}/`));
  if (job !== undefined && other !== undefined && other !== tree && isCarried && !isUnitInDoubt(tree))
    sayTreeUnit(job.id, other, 'same');
}

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
 * take a caution off the page, so a job nobody looked at in this tab gives none. What was read and told beside another unit is forgotten.
 */
export function markJobHere(job: Pick<JobBrief, 'id' | 'mains'>): void {
  const before = read('jobHere');
  if (before !== undefined && before !== job.id)
    for (const kept of ['cautionsRead', 'setupsTold'] as const) write(kept, undefined);
  write('jobHere', job.id);
  if (before !== job.id || job.mains !== undefined)
    write('mains', job.mains === undefined ? undefined : `${job.mains} ${job.id}`);
}

const mostTreeUnits = 100;

/** Remembers in this tab that a tree is about the unit of a job, or that the reader has yet to say so. */
export function sayTreeUnit(job: string, tree: string, word: 'same' | 'ask'): void {
  const start = `${job} ${tree} `;
  const others = readTreeUnits().filter((line) => !line.startsWith(start));
  write('treeUnits', [...others, `${start}${word}`].slice(-mostTreeUnits).join('\n'));
}

/**
 * Whether a tree may be about another unit than that of the open job: the job has been in other trees and not in this one, or the page
 * was opened by somebody's link, and the reader has not said that it is the same unit.
 */
export function isUnitInDoubt(tree: string): boolean {
  const job = findOpenJob();
  if (job === undefined) return false;
  const start = `${job.id} ${tree} `;
  const said = readTreeUnits()
    .find((line) => line.startsWith(start))
    ?.slice(start.length);
  return said === undefined ? job.trees.length > 0 && !job.trees.includes(tree) : said !== 'same';
}

/** A page of a tree that was opened by a link from elsewhere, with answers in it: they may be those of another unit. */
export function noteArrival(tree: string, hasAnswers: boolean): void {
  const job = findOpenJob();
  const [entry] = performance.getEntriesByType('navigation');
  const isOpened = entry instanceof PerformanceNavigationTiming && entry.type === 'navigate';
  if (job !== undefined && hasAnswers && isOpened && !document.referrer.startsWith(`${location.origin}/`))
    sayTreeUnit(job.id, tree, 'ask');
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

function readTreeUnits(): readonly string[] {
  return (read('treeUnits') ?? '').split('\n').filter((line) => line !== '');
}

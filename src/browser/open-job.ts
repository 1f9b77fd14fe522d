import { type JobBrief, readJobBrief } from '#core/log/job-brief.ts';
import { read } from './kit/storage.ts';

/** The job that is open in this browser, as every page knows it at once; undefined where there is none. */
export function findOpenJob(): JobBrief | undefined {
  const id = read('jobOpen');
  const brief = readJobBrief(read('jobBrief'));
  return brief !== undefined && brief.id === id ? brief : undefined;
}

/** Whether the reader saw in this tab that this job is the open one. */
export function isJobHere(id: string): boolean {
  return read('jobHere') === id;
}

/**
 * Whether a tree may be about another unit than that of the open job: the job has been in other trees and not in this one, or the page
 * was opened by somebody's link, and the reader has not said that it is the same unit.
 */
export function isUnitInDoubt(tree: string): boolean {
  const job = findOpenJob();
  if (job === undefined) return false;
  const said = `\n${read('treeUnits') ?? ''}\n`;
  const line = `\n${job.id} ${tree} `;
  return (
    !said.includes(`${line}same\n`) &&
    (said.includes(`${line}ask\n`) || (job.trees.length > 0 && !job.trees.includes(tree)))
  );
}

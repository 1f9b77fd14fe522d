import { countBenchHours } from './count-bench-hours.ts';
import type { Job } from './job.ts';
import type { JobBrief } from './job-brief.ts';
import { nameJob } from './name-job.ts';

/** The brief of a job. */
export function makeJobBrief(job: Job): JobBrief {
  return {
    id: job.id,
    name: nameJob(job),
    changedAt: Date.parse(job.changedAt),
    mains: job.intake.mains,
    keep: job.intake.keep,
    limitHours: job.intake.limitHours,
    benchHours: countBenchHours(job),
    answers: job.answers.length,
    points: job.points,
    unproved: Object.fromEntries(
      job.repairs
        .filter(({ result }) => result === undefined)
        .map(({ event }) => [`${event.tree}/${event.cause}`, event.id] as const),
    ),
  };
}

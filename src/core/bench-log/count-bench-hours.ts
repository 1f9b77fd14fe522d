import type { Job } from './job.ts';

/** A longer silence counts as time away from the bench. */
const longestPauseMinutes = 30;

/**
 * Hours at the bench as the log shows them: the time between one event and the next, pauses of more than 30 minutes left out.
 * A lower bound, since what is not logged is not counted.
 */
export function countBenchHours({ timeline }: Pick<Job, 'timeline'>): number {
  const times = timeline.map(({ event }) => Date.parse(event.at));
  const minutes = times.reduce((sum, time, index) => {
    const gap = (time - (times[index - 1] ?? time)) / 60_000;
    return gap <= longestPauseMinutes ? sum + gap : sum;
  }, 0);
  return minutes / 60;
}

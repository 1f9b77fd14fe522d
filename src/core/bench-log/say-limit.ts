/** What a job may cost in time, and has cost. */
export interface TimeLimit {
  /** Hours the owner gives; undefined where nothing was said. */
  readonly limitHours: number | undefined;
  /** Hours at the bench so far, as logged. */
  readonly benchHours: number;
}

const goodEnds = 'handing over, keeping it as a donor, or putting it away labelled are good ends too.';

/**
 * What the limit of a job says to going on for `minutes` more; undefined where there is none, or where it leaves room enough. Without
 * minutes it speaks only once the limit is reached.
 */
export function sayLimit({ limitHours, benchHours }: TimeLimit, minutes = 0): string | undefined {
  if (limitHours === undefined) return undefined;
  const left = Math.round((limitHours - benchHours) * 60);
  if (left <= 0) return `The limit of ${limitHours} h is reached: ${goodEnds}`;
  if (minutes <= left) return undefined;
  return `Of this job’s limit of ${limitHours} h, ${left} minutes are left. Ask the owner before you go on: ${goodEnds}`;
}

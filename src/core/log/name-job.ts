import type { Job } from './job.ts';
import type { JobBrief } from './job-brief.ts';
import { hasProof } from './proof.ts';

/**
 * What a job is called in lists: the unit, and behind it the complaint or the first tree; else one of them; else the day.
 * @example nameJob({ unit: { description: 'Blue synthesizer', … }, symptom: 'no sound', … }) // 'Blue synthesizer: no sound'
 */
export function nameJob({
  unit,
  symptom,
  answers,
  openedAt,
}: Pick<Job, 'unit' | 'symptom' | 'answers' | 'openedAt'>): string {
  const find = (...texts: readonly (string | undefined)[]): string =>
    texts.find((text) => text !== undefined && text.trim() !== '') ?? '';
  const known = unit.slug?.replaceAll('-', ' ').replace(/^./u, (letter) => letter.toUpperCase());
  const name = find([unit.maker, unit.model].filter((part) => part !== undefined).join(' '), unit.description, known);
  const said = [name, find(symptom, answers[0]?.treeTitle)].filter((text) => text !== '').join(': ');
  const words = find(said, `Job of ${openedAt.slice(0, 10)}`);
  return words.length > 80 ? `${words.slice(0, 79)}…` : words;
}

/** The state of a job in words; a cure counts as proved only by a run that is in the log. */
export function nameState(job: Pick<Job, 'state' | 'proofs'>): string {
  const { state } = job;
  if (state.kind === 'open') return 'On the bench';
  if (state.kind === 'waiting') return `Waiting for ${state.what}`;
  const proof =
    state.how === 'cured'
      ? hasProof(job)
        ? ' and proved'
        : ', the proof is not in the log'
      : state.how === 'cured-by-disturbance' && hasProof(job)
        ? '; it ran as long as the proof asks'
        : '';
  return `Closed: ${closingWords[state.how]}${proof}`;
}

/** How a job ended, in words. */
export const closingWords: Readonly<Record<Extract<Job['state'], { kind: 'closed' }>['how'], string>> = {
  cured: 'repaired',
  'cured-by-disturbance': 'works after a disturbance, the cause is not proved',
  'handed-over': 'handed over',
  stopped: 'put away, not repaired',
};

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

/** A brief is small: the newest names of points, and the newest repairs that wait for their result. */
const mostOfBrief = 100;

/** A drawing of a hand has 30,000 letters at most; a larger one, from a file, would crowd the rest out of the brief. */
const mostOfDrawing = 60_000;

function printPlacement({ placement }: Job): string | undefined {
  const text = placement && JSON.stringify(placement);
  return text !== undefined && text.length <= mostOfDrawing ? text : undefined;
}

/** The brief of a job. */
export function makeJobBrief(job: Job): JobBrief {
  return {
    id: job.id,
    name: nameJob(job),
    changedAt: Date.parse(job.changedAt),
    mains: job.intake.mains,
    plugged: job.intake.plugged,
    keep: job.intake.keep,
    limitHours: job.intake.limitHours,
    benchHours: countBenchHours(job),
    answers: job.answers.length,
    trees: [...new Set([...job.answers, ...job.repairs.map(({ event }) => event)].map(({ tree }) => tree))].slice(
      -mostOfBrief,
    ),
    points: Object.fromEntries(Object.entries(job.points).slice(-mostOfBrief)),
    chips: Object.fromEntries(Object.entries(job.chips).slice(-mostOfBrief)),
    placement: printPlacement(job),
    unproved: Object.fromEntries(
      job.repairs
        .filter(({ result }) => result === undefined)
        .slice(-mostOfBrief)
        .map(({ event }) => [`${event.tree}/${event.cause}`, event.id] as const),
    ),
  };
}

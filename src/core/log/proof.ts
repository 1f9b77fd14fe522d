import { countProofHours, countProofStarts } from '../diagnosis/proof.ts';
import { readAnswerValue, readShare } from '../answer/answer.ts';
import type { EventOf, Showing } from './event.ts';
import type { Job } from './job.ts';

/** What proves a repair, computed from how the fault showed. */
export interface PlannedProof {
  readonly unit: 'time' | 'hours' | 'starts';
  /** How many, of `unit`. */
  readonly needed: number;
  /** One sentence for the page: what to do, and the formula with the numbers put in. */
  readonly text: string;
}

/**
 * The proof that a fault calls for. Undefined where the numbers allow none, as more showings than starts.
 * Hours: −ln 0.05 × mean hours between showings; starts: ln 0.05 / ln(1 − k/n), rounded up (see diagnosis/proof.ts for the source).
 * @example planProof({ how: 'hours', meanHours: 2 })?.needed // 5.991464547107982
 */
export function planProof(showing: Showing): PlannedProof | undefined {
  if (showing.how === 'always') {
    return {
      unit: 'time',
      needed: 1,
      text: 'It was always there: once without it, warmed up and under its usual load, shows that it is gone.',
    };
  }
  if (showing.how === 'hours') {
    const hours = countProofHours(showing.meanHours);
    if (hours === undefined) return undefined;
    return {
      unit: 'hours',
      needed: hours,
      text: `Run ${printHours(hours)} without the fault, someone present, in as many sittings as you like: 3.0 × ${printHours(showing.meanHours)} (−ln 0.05 times the mean time between showings; if it were still there, so long a silence would have a chance of 1 in 20).`,
    };
  }
  const starts = countProofStarts(showing.seen, showing.starts);
  if (starts === undefined) return undefined;
  return {
    unit: 'starts',
    needed: starts,
    text: `${starts} clean ${starts === 1 ? 'start' : 'starts'} in a row, from the state in which it used to fail: ln 0.05 / ln(1 − ${showing.seen}/${showing.starts}), rounded up (if it were still there, so many clean starts would have a chance of at most 1 in 20).`,
  };
}

/** Whether what was run is enough and stayed clean. */
export function isProved(showing: Showing, done: number, isClean: boolean): boolean {
  const planned = planProof(showing);
  // A person reads the hours as the page prints them: to a tenth.
  return planned !== undefined && isClean && done >= Math.floor(planned.needed * 10) / 10;
}

/** Whether a job holds a run that proves its repair. */
export function hasProof({ proofs }: Pick<Job, 'proofs'>): boolean {
  return proofs.some(({ showing, done, isClean }) => isProved(showing, done, isClean));
}

/**
 * Hours in words: minutes below one hour, tenths above.
 * @example printHours(0.5) // '30 min'
 * @example printHours(5.99) // '6 h'
 */
export function printHours(hours: number): string {
  return hours < 1 ? `${Math.ceil(hours * 60)} min` : `${Math.round(hours * 10) / 10} h`;
}

/** The last word of the log on a cure by disturbance, where that is how the unit came to work; undefined otherwise. */
export function findDisturbance({ repairs }: Pick<Job, 'repairs'>): EventOf<'result'> | undefined {
  const last = repairs.findLast(({ result }) => result !== undefined)?.result;
  return last?.result === 'cured-by-disturbance' ? last : undefined;
}

/**
 * How the fault showed, as far as the log knows: as was said for the proof, else as it was counted in a check (`3-of-8`: 3 of 8
 * tries). Undefined where nobody counted: then the person is asked.
 */
export function proposeShowing({ proofs, answers }: Pick<Job, 'proofs' | 'answers'>): Showing | undefined {
  const said = proofs.at(-1)?.showing;
  if (said !== undefined) return said;
  const shares = answers.map(({ value }) => readShare(readAnswerValue(value)?.value ?? value));
  const last = shares.findLast((share) => share !== undefined && share.times >= 1 && share.times <= share.tries);
  return last === undefined ? undefined : { how: 'starts', seen: last.times, starts: last.tries };
}

/** The proof that a job should hold before it is closed, as a sentence: computed where the log knows how the fault showed. */
export function sayProposal(job: Pick<Job, 'proofs' | 'answers'>): string {
  const showing = proposeShowing(job);
  const planned = showing === undefined ? undefined : planProof(showing);
  return planned === undefined
    ? 'Before closing: say in the job under “Prove it” in how many of how many starts it failed, or every how many hours. How long it must stay away is computed from that.'
    : `Before closing: ${planned.text.charAt(0).toLowerCase()}${planned.text.slice(1)}`;
}

import { readAnswerValue, readShare } from '../answer/answer.ts';
import type { EventOf, Showing } from './event.ts';
import type { Job } from './job.ts';
import { planProof } from './plan-proof.ts';

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

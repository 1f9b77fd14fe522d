import type { Job } from './job.ts';
import { hasProof } from './plan-proof.ts';

/** What a job is called in lists: the unit, else the symptom, else the first tree, else the day. */
export function nameJob({ unit, symptom, answers, openedAt }: Job): string {
  const name = [unit.maker, unit.model].filter((part) => part !== undefined).join(' ');
  const words = [name, unit.description ?? '', symptom ?? '', answers[0]?.treeTitle ?? '', unit.slug ?? ''];
  const first = words.find((text) => text.trim() !== '') ?? `Job of ${openedAt.slice(0, 10)}`;
  return first.length > 80 ? `${first.slice(0, 79)}…` : first;
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
  cured: 'cured',
  'cured-by-disturbance': 'cured by disturbance, the cause is not proved',
  'handed-over': 'handed over',
  stopped: 'put away, not repaired',
};

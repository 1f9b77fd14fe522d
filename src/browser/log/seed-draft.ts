import type { Job } from '#core/bench-log/job.ts';
import { sayEventAnswer } from '#core/bench-log/say-event-answer.ts';
import type { RepairSeed } from '#core/post/draft.ts';
import { write } from '../kit/storage.ts';

/** Leaves a job for the drafting page: its symptom, the checks in their order, the cause, the repair and how it was proved. */
export function seedDraft(job: Job): void {
  const last = job.repairs.findLast(({ result }) => result?.result === 'cured') ?? job.repairs.at(-1);
  const seed: RepairSeed = {
    title: job.symptom ?? last?.event.title ?? '',
    symptom: job.symptom ?? '',
    steps: job.answers.map((answer) => ({
      title: answer.question ?? answer.node.replaceAll('-', ' '),
      said: sayEventAnswer(answer).said,
    })),
    cause: last?.event.title ?? '',
    repair: last?.event.part === undefined ? '' : `Fitted: ${last.event.part}`,
    proof: job.state.kind === 'closed' ? (job.state.summary ?? '') : '',
  };
  write('draftSeed', JSON.stringify(seed));
}

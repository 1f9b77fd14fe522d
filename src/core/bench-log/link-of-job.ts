import { emptyLinkState, type LinkState, readAnswerValue } from '../answer/answer.ts';
import type { Job } from './job.ts';

/** The state of a diagnosis in one tree as the job has it: its answers there, the unit, and the repairs that did not cure. */
export function linkOfJob(job: Job, tree: string): LinkState {
  const answers = job.answers.filter((answer) => answer.tree === tree);
  const did = job.repairs
    .filter(({ event, result }) => event.tree === tree && (result?.result === 'same' || result?.result === 'worse'))
    .map(({ event }) => event.cause);
  const worsened = job.repairs.findLast(({ event, result }) => event.tree === tree && result?.result === 'worse');
  return {
    ...emptyLinkState,
    ...(worsened === undefined ? {} : { worsened: worsened.event.cause }),
    unit: job.unit.slug,
    instrument: answers.findLast(({ instrument }) => instrument !== undefined)?.instrument,
    did: [...new Set(did)],
    answers: answers.map(({ node, stage, value, instrument }) => ({
      tree: undefined,
      node,
      stage,
      ...(readAnswerValue(value) ?? { value }),
      ...(instrument === undefined ? {} : { instrument }),
    })),
  };
}

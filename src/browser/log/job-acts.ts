import { sayEventAnswer } from '#core/log/describe-event.ts';
import type { EventDraft } from '#core/log/event.ts';
import { findLastStanding, findLastUndo, type Job } from '#core/log/job.ts';
import { writeJobMarkdown } from '#core/log/write-job-markdown.ts';
import { addressOf } from '#core/link/address.ts';
import type { RepairSeed } from '#core/post/draft.ts';
import { write } from '../kit/storage.ts';
import { findOpenJob } from '../open-job.ts';
import { forgetOpenJob } from '../recorder/tell-unit.ts';
import { basePath } from '../page-data.ts';
import { copyText } from '../share/copy-text.ts';
import { removeJob } from './event-log.ts';
import { saveFile } from './files.ts';
import { openJob } from './job-desk.ts';
import { nameSlug } from './render-job.ts';

/** What a button of the job's view comes to: events to be written, a text to be told, both or neither. */
export interface Act {
  readonly drafts?: readonly EventDraft[];
  readonly said?: string;
}

/** Does what a button of the job's view is for. */
export async function doAct(root: HTMLElement, act: string, job: Job): Promise<Act> {
  switch (act) {
    case 'undo':
    case 'redo': {
      const of = (act === 'undo' ? findLastStanding : findLastUndo)(job)?.id;
      return of === undefined ? {} : { drafts: [{ kind: 'undo', of }] };
    }
    case 'resume':
      openJob(job);
      return { drafts: [{ kind: 'resumed' }] };
    case 'print':
      window.print();
      return {};
    case 'save':
      await saveFile(job.id);
      return {};
    case 'markdown':
      return { said: await copyMarkdown(root, writeJobMarkdown(job, nameSlug)) };
    case 'draft':
      seedDraft(job);
      location.assign(addressOf({ kind: 'draft' }, basePath()));
      return {};
    case 'remove':
      return { said: await removeWhole(job.id) };
    default:
      return {};
  }
}

async function removeWhole(id: string): Promise<string> {
  const isRemoved = await removeJob(id);
  if (findOpenJob()?.id === id) forgetOpenJob();
  history.replaceState(null, '', location.pathname);
  return isRemoved ? 'The job was removed from this browser.' : 'The browser did not let the job be removed.';
}

async function copyMarkdown(root: HTMLElement, text: string): Promise<string> {
  const field = root.querySelector<HTMLTextAreaElement>('[data-markdown]');
  if (field !== null) {
    field.value = text;
    field.hidden = false;
  }
  if (await copyText(Promise.resolve(text))) return 'Copied.';
  field?.select();
  return 'The browser did not allow it: copy the text from the field.';
}

/** Leaves a job for the drafting page: its symptom, the checks in their order, the cause, the repair and how it was proved. */
export function seedDraft(job: Job): void {
  const last = job.repairs.findLast(({ result }) => result?.result === 'cured') ?? job.repairs.at(-1);
  const seed: RepairSeed = {
    title: job.symptom ?? last?.event.title ?? '',
    symptom: job.symptom ?? '',
    steps: job.answers.map((answer) => ({
      title: answer.question ?? answer.node.replaceAll('-', ' '),
      said: sayEventAnswer(answer),
    })),
    cause: last?.event.title ?? '',
    repair: last?.event.part === undefined ? '' : `Fitted: ${last.event.part}`,
    proof: job.state.kind === 'closed' ? (job.state.summary ?? '') : '',
  };
  write('draftSeed', JSON.stringify(seed));
}

import { readAnswerValue } from '#core/share/answer-value.ts';
import { describeResult, exposureWords } from '#core/bench-log/describe-event.ts';
import type { Job } from '#core/bench-log/job.ts';
import { nameJob, nameState } from '#core/bench-log/name-job.ts';
import { hasProof, planProof } from '#core/bench-log/plan-proof.ts';
import { findAnswerText } from '#core/share/answer-text.ts';
import { makeElement } from '../make-element.ts';

/** One page has room for so much; the file holds all of it. */
const room = { readings: 9, repairs: 4, parts: 4, notes: 3, letters: 110, lines: 220 } as const;

/** The job as a sheet of paper for the owner of the unit: one page, whatever the log holds. */
export function renderSheet(sheet: HTMLElement, job: Job): void {
  const { unit, intake } = job;
  sheet.replaceChildren(
    makeElement('h1', {}, 'Job sheet'),
    makeElement(
      'dl',
      { class: 'facts' },
      ...[
        [
          'Unit',
          clip(
            [unit.maker, unit.model, unit.description].filter((text) => text !== undefined).join(' ') || nameJob(job),
          ),
        ],
        ['Serial number', clip(unit.serial)],
        ['Revision', clip(unit.revision)],
        ['Symptom as reported', clip(job.symptom)],
        ['The owner says', clip(intake.said, room.lines)],
        ['Must not be lost', clip(intake.keep)],
        ['Mains', intake.mains === undefined ? '' : exposureWords[intake.mains]],
        ['Taken in', job.openedAt.slice(0, 10)],
        ['State', clip(nameState(job))],
      ].flatMap(([name = '', text = '']) =>
        text === '' ? [] : [makeElement('div', {}, makeElement('dt', {}, name), makeElement('dd', {}, text))],
      ),
    ),
    ...makeSection('What was measured', job.answers.map(describeAnswer), room.readings),
    ...makeSection('What was done', job.repairs.map(describeRepair), room.repairs),
    ...makeSection(
      'Parts',
      job.parts.map(({ name, status }) => `${clip(name)}: ${status.replaceAll('-', ' ')}`),
      room.parts,
    ),
    ...makeSection('How it was proved', describeProof(job), 2),
    makeElement('p', { class: 'sign' }, 'Date and name'),
    makeElement(
      'p',
      { class: 'status' },
      'Readings are those of the instruments on this bench. A reading inside its limits is not proof of health. Have the mains side tested by a competent person after any work on it.',
    ),
    ...makeSection(
      'Notes',
      [...(job.state.kind === 'closed' ? [job.state.summary ?? ''] : []), ...job.notes.map(({ text }) => text)]
        .filter((text) => text !== '')
        .map((text) => clip(text, room.lines)),
      room.notes,
    ),
  );
}

function makeSection(title: string, lines: readonly string[], most: number): readonly Node[] {
  if (lines.length === 0) return [];
  const rest = lines.length - most;
  const shown = rest > 0 ? lines.slice(-most) : lines;
  return [
    makeElement('h2', {}, title),
    makeElement(
      'ul',
      {},
      ...shown.map((line) => makeElement('li', {}, line)),
      ...(rest > 0 ? [makeElement('li', {}, `And ${rest} earlier ones, in the job’s file.`)] : []),
    ),
  ];
}

function describeAnswer({ tree, node, stage, value, question, verdict }: Job['answers'][number]): string {
  const text = findAnswerText({ tree, node, stage, ...(readAnswerValue(value) ?? { value }) });
  return clip(`${question ?? node.replaceAll('-', ' ')} ${text}${verdict === undefined ? '' : ` (${verdict})`}`);
}

function describeRepair({ event, result }: Job['repairs'][number]): string {
  const part = event.part === undefined ? '' : `, fitted: ${event.part}`;
  return clip(
    `${event.title ?? event.cause}${part}: ${result === undefined ? 'not proved yet' : describeResult(result)}`,
  );
}

function describeProof(job: Job): readonly string[] {
  const last = job.proofs.at(-1);
  const planned = last === undefined ? undefined : planProof(last.showing);
  if (last === undefined || planned === undefined) return [];
  const unit = planned.unit === 'time' ? 'time' : planned.unit;
  return [
    `Run: ${last.done} ${unit}, ${last.isClean ? 'without the fault' : 'the fault showed again'}. ${hasProof(job) ? 'Proved.' : 'Not proved yet.'}`,
    clip(`Asked: ${planned.text}`, room.lines),
  ];
}

function clip(text: string | undefined, most: number = room.letters): string {
  const flat = (text ?? '').replaceAll(/\s+/gu, ' ').trim();
  return flat.length > most ? `${flat.slice(0, most - 1)}…` : flat;
}

import { describeResult, exposureWords } from '#core/bench-log/describe-event.ts';
import type { Job } from '#core/bench-log/job.ts';
import { nameState } from '#core/bench-log/name-job.ts';
import { hasProof, planProof } from '#core/bench-log/plan-proof.ts';
import { sayEventAnswer } from '#core/bench-log/say-event-answer.ts';
import { makeElement } from '../kit/elements.ts';
import { countLines, type FittedSection, fitSheet, lettersOfLine, type SheetLine } from './fit-sheet.ts';
import { nameUnit } from './name-unit.ts';
import { treesOf } from './ways-on.ts';

/** Longest texts of one line, in letters: the file holds all of it. */
const room = { letters: 110, lines: 220 } as const;

/** What gives way first where a page is too small: notes, then parts, then what was found healthy, then the oldest of the other answers. */
const ranks = { note: 0, part: 1, healthy: 2, answer: 3, repair: 4, proof: 5 } as const;

/** The job as a sheet of paper for the owner of the unit: one page, filled before anything is left out. */
export function renderSheet(sheet: HTMLElement, job: Job): void {
  const facts = listFacts(job);
  // Heading, signature and the closing sentence.
  const taken = 10 + facts.reduce((sum, [, text]) => sum + countLines(text, lettersOfLine * 0.7) * 1.15, 0);
  const [measured, done, parts, proof, notes] = fitSheet(
    [
      { title: 'What was measured', lines: job.answers.map(rankAnswer) },
      { title: 'What was done', lines: rankAll(job.repairs.map(describeRepair), ranks.repair) },
      {
        title: 'Parts',
        lines: rankAll(
          job.parts.map(({ name, status }) => `${clip(name)}: ${status.replaceAll('-', ' ')}`),
          ranks.part,
        ),
      },
      { title: 'How it was proved', lines: rankAll(describeProof(job), ranks.proof) },
      { title: 'Notes', lines: rankAll(listNotes(job), ranks.note) },
    ],
    taken,
  );
  sheet.replaceChildren(
    makeElement('h1', {}, 'Job sheet'),
    makeElement(
      'dl',
      { class: 'facts' },
      ...facts.map(([name, text]) => makeElement('div', {}, makeElement('dt', {}, name), makeElement('dd', {}, text))),
    ),
    ...[measured, done, parts, proof].flatMap(makeSection),
    makeElement('p', { class: 'sign' }, 'Date and name'),
    makeElement(
      'p',
      { class: 'status' },
      'Readings are those of the instruments on this bench. A reading inside its limits is not proof of health. Have the mains side tested by a competent person after any work on it.',
    ),
    ...makeSection(notes),
  );
}

function listFacts(job: Job): readonly (readonly [name: string, text: string])[] {
  const { unit, intake } = job;
  const known = unit.slug === undefined ? '' : nameUnit(unit.slug);
  const named = [unit.maker, unit.model, unit.description].filter((text) => text !== undefined).join(' ');
  const facts: readonly (readonly [string, string])[] = [
    ['Unit', clip(named === '' ? known : named)],
    ['Serial number', clip(unit.serial)],
    ['Revision', clip(unit.revision)],
    ['Known unit', named === '' ? '' : clip(known)],
    ['Symptom as reported', clip(job.symptom)],
    [
      'Looked into',
      clip(
        treesOf(job)
          .map(({ title }) => title)
          .reverse()
          .join('; '),
      ),
    ],
    ['The owner says', clip(intake.said, room.lines)],
    ['Must not be lost', clip(intake.keep)],
    ['Mains', intake.mains === undefined ? '' : exposureWords[intake.mains]],
    ['Taken in', job.openedAt.slice(0, 10)],
    ['State', clip(nameState(job))],
  ];
  return facts.filter(([, text]) => text !== '');
}

function listNotes({ state, notes }: Job): readonly string[] {
  return [...(state.kind === 'closed' ? [state.summary ?? ''] : []), ...notes.map(({ text }) => text)]
    .filter((text) => text !== '')
    .map((text) => clip(text, room.lines));
}

function rankAll(lines: readonly string[], rank: number): readonly SheetLine[] {
  return lines.map((text) => ({ text, rank }));
}

/** A reading inside its limits says least; one that is not may be why the unit must not be plugged in. */
function rankAnswer(answer: Job['answers'][number]): SheetLine {
  const isHealthy = answer.verdict === 'in range' || answer.value === 'in' || answer.value === 'good';
  return { text: describeAnswer(answer), rank: isHealthy ? ranks.healthy : ranks.answer };
}

function makeSection(section: FittedSection | undefined): readonly Node[] {
  if (section === undefined || section.lines.length + section.leftOut === 0) return [];
  const { title, lines, leftOut } = section;
  const rest = `And ${leftOut} more, in the job’s file.`;
  return [
    makeElement('h2', {}, title),
    makeElement('ul', {}, ...[...lines, ...(leftOut > 0 ? [rest] : [])].map((line) => makeElement('li', {}, line))),
  ];
}

function describeAnswer(answer: Job['answers'][number]): string {
  const { said, verdict } = sayEventAnswer(answer);
  const question = answer.question ?? answer.node.replaceAll('-', ' ');
  return clip(`${question} ${said}${verdict === '' ? '' : ` (${verdict})`}`, room.lines);
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

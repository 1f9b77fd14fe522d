import { describeResult, exposureWords, sayEventAnswer } from '#core/log/describe-event.ts';
import type { Job } from '#core/log/job.ts';
import { nameState } from '#core/log/name-job.ts';
import { hasProof, planProof } from '#core/log/proof.ts';
import { makeElement } from '../kit/elements.ts';
import { nameSlug, treesOf } from './render-job.ts';

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
      ...facts.map(([name, text]) =>
        makeElement('div', {}, makeElement('dt', {}, name), makeElement('dd', {}, makeElement('bdi', {}, text))),
      ),
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
  const known = unit.slug === undefined ? '' : nameSlug(unit.slug);
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
    ['Intake', job.openedAt.slice(0, 10)],
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
    makeElement(
      'ul',
      {},
      ...[...lines, ...(leftOut > 0 ? [rest] : [])].map((line) => makeElement('li', {}, makeElement('bdi', {}, line))),
    ),
  ];
}

function describeAnswer(answer: Job['answers'][number]): string {
  const question = answer.question ?? answer.node.replaceAll('-', ' ');
  const verdict = answer.verdict === undefined ? '' : ` (${answer.verdict})`;
  return clip(`${question} ${sayEventAnswer(answer)}${verdict}`, room.lines);
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

/** A part of the job sheet before it is fitted to the page. */
interface SheetSection {
  readonly title: string;
  readonly lines: readonly SheetLine[];
}

interface SheetLine {
  readonly text: string;
  /** What is lowest gives way first; of equals, what stands first. */
  readonly rank: number;
}

/** A part as it goes to paper: what has room, and how many lines stand in the job's file alone. */
interface FittedSection {
  readonly title: string;
  readonly lines: readonly string[];
  readonly leftOut: number;
}

/** Letters of a printed line of 180 mm at 9 points, and the lines of a page of Letter, the lower of the two sizes; both measured, with some to spare. */
const lettersOfLine = 105;
const linesOfPage = 56;
/** A heading, larger and with room around it. */
const headingLines = 1.7;

/** Leaves out only what one page cannot hold beside `taken` lines, the lowest rank first. */
function fitSheet(sections: readonly SheetSection[], taken: number): readonly FittedSection[] {
  const kept = sections.map(({ lines }) => new Set(lines));
  const order = sections
    .flatMap(({ lines }, section) => lines.map((line) => ({ line, section })))
    .sort((one, other) => one.line.rank - other.line.rank);
  let used = taken + headingLines * kept.filter(({ size }) => size > 0).length;
  for (const { line } of order) used += countLines(line.text);
  for (const { line, section } of order) {
    if (used <= linesOfPage) break;
    // The first line left out of a part is replaced by one that says so.
    used -= countLines(line.text) - (kept[section]?.size === sections[section]?.lines.length ? 1 : 0);
    kept[section]?.delete(line);
  }
  return sections.map(({ title, lines }, section) => {
    const shown = lines.filter((line) => kept[section]?.has(line));
    return { title, lines: shown.map(({ text }) => text), leftOut: lines.length - shown.length };
  });
}

/** Printed lines that a text takes. */
function countLines(text: string, letters: number = lettersOfLine): number {
  return Math.max(1, Math.ceil(text.length / letters));
}

import { type PostBlock, type PostSpan, writeBlocks } from '../post/blocks.ts';
import { describeEvent, exposureWords, type NameSlug, partWords } from './describe-event.ts';
import type { Job } from './job.ts';
import { nameJob, nameState } from './name-job.ts';
import { planProof } from './proof.ts';

/** Longer than all texts of one event together (see event.ts): nothing of a log is cut. */
const longestText = 20_000;

/** A job as a CommonMark document. Everything a person typed is escaped; times are UTC, to the minute. */
export function writeJobMarkdown(job: Job, nameSlug: NameSlug = (slug) => slug): string {
  const { unit, intake } = job;
  const facts: readonly (readonly [string, string | undefined])[] = [
    ['State', nameState(job)],
    ['Symptom as reported', job.symptom],
    ['Maker', unit.maker],
    ['Model', unit.model],
    ['Serial number', unit.serial],
    ['Revision', unit.revision],
    ['Known unit', unit.slug === undefined ? undefined : nameSlug(unit.slug)],
    ['Description', unit.description],
    ['The owner says', intake.said],
    ['Just before', intake.changed],
    ['Earlier repairs', intake.before],
    ['Must not be lost', intake.keep],
    ['Mains', intake.mains === undefined ? undefined : exposureWords[intake.mains]],
    [
      'Limit',
      [intake.limitHours && `${intake.limitHours} h`, intake.limitMoney].filter(Boolean).join(', ') || undefined,
    ],
  ];
  const proof = job.proofs.at(-1);
  const blocks: readonly PostBlock[] = [
    { kind: 'heading', level: 1, text: nameJob(job) },
    {
      kind: 'list',
      items: facts.flatMap(([name, text]) =>
        text === undefined || text.trim() === '' ? [] : [[{ text: `${name}:` }, { text }]],
      ),
    },
    ...makeSection(
      'Parts',
      job.parts.map(({ name, status }) => [{ text: `${name}: ${partWords[status]}` }]),
    ),
    ...makeSection('Proof', proof === undefined ? [] : [[{ text: planProof(proof.showing)?.text ?? '' }]]),
    ...makeSection(
      'What happened',
      job.timeline.flatMap((entry) => describeEntry(entry, nameSlug)),
    ),
    { kind: 'paragraph', spans: [{ text: 'Times are UTC.' }] },
  ];
  return `${writeBlocks(blocks, 'commonmark', longestText)}\n`;
}

function makeSection(title: string, items: readonly (readonly PostSpan[])[]): readonly PostBlock[] {
  return items.length === 0
    ? []
    : [
        { kind: 'heading', level: 2, text: title },
        { kind: 'list', items },
      ];
}

function describeEntry(
  { event, isRevoked }: Job['timeline'][number],
  nameSlug: NameSlug,
): readonly (readonly PostSpan[])[] {
  if (isRevoked || event.kind === 'undo') return [];
  const { what, detail } = describeEvent(event, nameSlug);
  const time = event.at.slice(0, 16).replace('T', ' ');
  return [
    [
      { text: `${time} ${what}${detail === '' ? '' : ':'}` },
      ...(detail === '' ? [] : [{ text: detail, isStrong: true }]),
    ],
  ];
}

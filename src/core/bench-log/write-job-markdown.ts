import { describeEvent, exposureWords, partWords } from './describe-event.ts';
import { escapeMarkdown } from './escape-markdown.ts';
import type { Job } from './job.ts';
import { nameJob, nameState } from './name-job.ts';
import { planProof } from './plan-proof.ts';

/** A job as a CommonMark document. Everything a person typed is escaped; times are UTC, to the minute. */
export function writeJobMarkdown(job: Job): string {
  const { unit, intake } = job;
  const facts: readonly (readonly [string, string | undefined])[] = [
    ['State', nameState(job)],
    ['Symptom as reported', job.symptom],
    ['Maker', unit.maker],
    ['Model', unit.model],
    ['Serial number', unit.serial],
    ['Revision', unit.revision],
    ['Board', unit.board],
    ['Description', unit.description],
    ['The owner says', intake.said],
    ['What changed', intake.changed],
    ['Who was in there before', intake.before],
    ['Must not be lost', intake.keep],
    ['Mains', intake.mains === undefined ? undefined : exposureWords[intake.mains]],
    [
      'Limit',
      [intake.limitHours && `${intake.limitHours} h`, intake.limitMoney].filter(Boolean).join(', ') || undefined,
    ],
  ];
  const proof = job.proofs.at(-1);
  const sections: readonly (readonly [string, readonly string[]])[] = [
    ['Parts', job.parts.map(({ name, status }) => `${escapeMarkdown(name)}: ${partWords[status]}`)],
    ['Proof', proof === undefined ? [] : [escapeMarkdown(planProof(proof.showing)?.text ?? '')]],
    [
      'What happened',
      job.timeline
        .filter(({ event, isRevoked }) => !isRevoked && event.kind !== 'undo')
        .map(({ event }) => {
          const { what, detail } = describeEvent(event);
          const time = event.at.slice(0, 16).replace('T', ' ');
          return `${time} ${escapeMarkdown(what)}${detail === '' ? '' : `: **${escapeMarkdown(detail)}**`}`;
        }),
    ],
  ];
  return [
    `# ${escapeMarkdown(nameJob(job))}`,
    facts
      .filter(([, text]) => text !== undefined && text.trim() !== '')
      .map(([name, text]) => `- ${name}: ${escapeMarkdown(text ?? '')}`)
      .join('\n'),
    ...sections
      .filter(([, lines]) => lines.length > 0)
      .map(([title, lines]) => `## ${title}\n\n${lines.map((line) => `- ${line}`).join('\n')}`),
    'Times are UTC.',
  ]
    .join('\n\n')
    .concat('\n');
}

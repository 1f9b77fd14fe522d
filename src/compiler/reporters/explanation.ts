import type { ExplainedMessage } from '../find-explanation.ts';

/** One explanation for the terminal: what is asked for, why, a wrong and a right example. */
export function printExplanation(message: ExplainedMessage): string {
  const { id, group, severity, says, why, all = [] } = message;
  return [
    `${id}: ${says}`,
    why,
    ...all.map((line) => `- ${line}`),
    '',
    printExamples(message),
    '',
    `${severity === 'error' ? 'An error: it stops the build' : 'A warning: judge for yourself'}. Group: ${group}.`,
  ].join('\n');
}

/** The wrong and the right example, each indented below its word. */
export function printExamples({ wrong, right, from }: Pick<ExplainedMessage, 'wrong' | 'right' | 'from'>): string {
  const place = from === undefined ? '' : ` (from ${from})`;
  return [`Wrong${place}:`, indent(wrong), `Right${place}:`, indent(right)].join('\n');
}

function indent(example: string): string {
  return example
    .split('\n')
    .map((line) => (line === '' ? '' : `  ${line}`))
    .join('\n');
}

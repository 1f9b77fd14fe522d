import type { ExplainedMessage } from '../find-explanation.ts';

/** One explanation for the terminal: what is asked for, why, a wrong and a right example. */
export function printExplanation({ id, group, severity, says, why, wrong, right, from }: ExplainedMessage): string {
  const place = from === undefined ? '' : ` (from ${from})`;
  return [
    `${id}: ${says}`,
    why,
    '',
    `Wrong${place}:`,
    indent(wrong),
    `Right${place}:`,
    indent(right),
    '',
    `${severity === 'error' ? 'An error: it stops the build' : 'A warning: judge for yourself'}. Group: ${group}.`,
  ].join('\n');
}

function indent(example: string): string {
  return example
    .split('\n')
    .map((line) => (line === '' ? '' : `  ${line}`))
    .join('\n');
}

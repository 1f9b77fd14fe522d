import type { Explanation } from './explanation.ts';
import type { ProblemSeverity } from './problem.ts';
import { readerMessages } from './reader-messages.ts';
import { allRules } from './rules/all.ts';
import type { RuleGroup } from './rules/rule.ts';

/** An explanation with the id that messages print, and where it belongs. */
export interface ExplainedMessage extends Explanation {
  readonly id: string;
  readonly group: 'reading' | RuleGroup;
  readonly severity: ProblemSeverity;
}

/** Everything a check can say, readers first, then the rules in the order of the reference. */
export const explainedMessages: readonly ExplainedMessage[] = [
  ...Object.entries(readerMessages).map(([id, explanation]): ExplainedMessage => ({
    id,
    group: 'reading',
    severity: 'error',
    ...explanation,
  })),
  ...allRules.map(({ find: _find, ...rule }): ExplainedMessage => rule),
];

/** The explanation of a message id, or undefined where no message has it. */
export function findExplanation(id: string): ExplainedMessage | undefined {
  return explainedMessages.find((message) => message.id === id);
}

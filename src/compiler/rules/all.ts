import type { ProblemSeverity } from '../problem.ts';
import type { Explanation } from '../reader-messages.ts';
import { readerMessages } from '../reader-messages.ts';
import { addressRules } from './addresses.ts';
import { adviceRules } from './advice.ts';
import { causeRules } from './causes.ts';
import { cautionRules } from './cautions.ts';
import { circuitRules } from './circuits.ts';
import { evidenceRules } from './evidence.ts';
import { handsRules } from './hands.ts';
import { instrumentRules } from './instruments.ts';
import { nameRules } from './names.ts';
import type { Rule, RuleGroup } from './rule.ts';
import { placementRules } from './placements.ts';
import { searchRules } from './search-words.ts';
import { structureRules } from './structure.ts';
import { targetRules } from './targets.ts';
import { wordingRules } from './wording.ts';

/** Every rule; the reference sorts them by their groups. */
export const allRules: readonly Rule[] = [
  ...structureRules,
  ...nameRules,
  ...placementRules,
  ...targetRules,
  ...instrumentRules,
  ...cautionRules,
  ...adviceRules,
  ...handsRules,
  ...causeRules,
  ...evidenceRules,
  ...circuitRules,
  ...wordingRules,
  ...searchRules,
  ...addressRules,
];

/** An explanation with the id that messages print, and where it belongs. */
export interface ExplainedMessage extends Explanation {
  readonly id: string;
  readonly group: 'reading' | RuleGroup;
  readonly severity: ProblemSeverity;
}

/** Everything a check can say, readers first. */
export const explainedMessages: readonly ExplainedMessage[] = [
  ...Object.entries(readerMessages).map(([id, explanation]): ExplainedMessage => ({
    id,
    group: 'reading',
    severity: 'error',
    ...explanation,
  })),
  ...allRules.map(
    ({
      findInTree: _inTree,
      findInTexts: _inTexts,
      findInAll: _inAll,
      isOfWhole: _isOfWhole,
      severity = 'error',
      ...rule
    }) => ({
      ...rule,
      severity,
    }),
  ),
];

/** The explanation of a message id, or undefined where no message has it. */
export function findExplanation(id: string): ExplainedMessage | undefined {
  return explainedMessages.find((message) => message.id === id);
}

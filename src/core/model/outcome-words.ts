import type { Check } from './fault-tree.ts';
import type { Target } from './target.ts';

/** Words that answer a reading of this target, lowest band first. */
export function wordsOfTarget(target: Target): readonly string[] {
  return [...target.bands.map(({ name }) => name), ...target.words];
}

/** All words that may answer a check, `sometimes` aside, which may answer any. */
export function wordsOfCheck(check: Check): readonly string[] {
  return check.outcomes.flatMap(({ when }) => when);
}

import type { SiblingComparison } from '../reading/compare-siblings.ts';

/**
 * What a comparison of neighbours says, in words. `odd` are the places (from 0) of those that stand out among all neighbours, `missing`
 * how many are not read yet. How sure: `clearly` from twice the limit of 3.5 (modified z-score), or where one is over range.
 */
export function describeSiblings(
  { kind, scores, odd: positions }: SiblingComparison,
  odd: readonly number[],
  missing: number,
): string {
  const rest = missing === 0 ? '' : missing === 1 ? ' One is not read yet.' : ` ${missing} are not read yet.`;
  switch (kind) {
    case 'too-few':
      return `Too few to compare.${rest}`;
    case 'alike':
      return `All alike, within what the instrument can tell.${rest}`;
    case 'differ':
      return `They differ, and the readings alone cannot say which is wrong.${rest}`;
    case 'odd': {
      const names = odd.map((place) => place + 1);
      const least = Math.min(...positions.map((position) => Math.abs(scores[position] ?? 0)));
      const sure = least >= clearScore ? 'clearly' : 'just';
      return names.length === 1
        ? `Number ${names[0]} is the odd one out, ${sure}.${rest}`
        : `Numbers ${names.join(', ')} stand out, ${sure}.${rest}`;
    }
  }
}

/** Twice the limit from which a reading counts as odd. Our judgement. */
const clearScore = 7;

/** A check's own words that a comparison points to, by the word's parts: `odd-one`, `one-still`; `all-alike`, `alike`. */
export function proposeOutcomes(kind: SiblingComparison['kind'], words: readonly string[]): readonly string[] {
  const has = (word: string, parts: readonly string[]): boolean => word.split('-').some((part) => parts.includes(part));
  if (kind === 'odd') return words.filter((word) => has(word, ['odd', 'one']));
  if (kind !== 'alike') return [];
  const alike = words.filter((word) => has(word, ['alike', 'same']));
  // Alike and all wrong is another answer of some checks; numbers without limits cannot tell.
  return words.some((word) => word.startsWith('all-') && !alike.includes(word)) ? [] : alike;
}

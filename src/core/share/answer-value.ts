/** What was read or seen: a word that answers, readings, or both where a person decided over a reading. */
export interface AnswerValue {
  /** An outcome word, `sometimes`, `3-of-8`, `unseen`, or a quantity as `4.71V` where nothing was decided by hand. */
  readonly value: string;
  /** Readings behind a word, or all readings of equal neighbours in their order; missing where `value` says it all. */
  readonly readings?: readonly string[];
}

/** Answers that any check takes, whatever its own words are. */
export const reservedAnswers = { sometimes: 'sometimes', unseen: 'unseen' } as const;

/** How many values one key may hold: more neighbours than any check compares. */
const mostValues = 40;
const partPattern = /^-?[A-Za-z0-9.-]{1,40}$/;
const wordPattern = /^[a-z]|^\d+-of-\d+$/;

/** True for an outcome word; false for a reading. Words begin with a small letter, as no quantity does, or are `3-of-8`. */
export function isWord(value: string): boolean {
  return wordPattern.test(value);
}

/**
 * Reads the right side of `check=…`: one value, or values joined by `,`. A word may stand first, what follows are readings.
 * Undefined where a part holds a sign outside the alphabet, where there are more than 40, or where a word follows.
 * @example readAnswerValue('odd-one,4.9V,0.1V') // { value: 'odd-one', readings: ['4.9V', '0.1V'] }
 */
export function readAnswerValue(text: string): AnswerValue | undefined {
  const parts = text.split(',', mostValues + 1);
  const [first = '', ...rest] = parts;
  if (parts.length > mostValues || parts.some((part) => !partPattern.test(part)) || rest.some(isWord)) return undefined;
  if (rest.length === 0) return { value: first };
  return { value: first, readings: isWord(first) ? rest : parts };
}

/** The inverse of `readAnswerValue`. */
export function printAnswerValue({ value, readings = [] }: AnswerValue): string {
  return (isWord(value) ? [value, ...readings] : readings.length > 1 ? readings : [value]).join(',');
}

/** `3-of-8` taken apart: how often the fault showed in how many tries; undefined for any other value or where k is above n. */
export function readShare(value: string): { readonly times: number; readonly tries: number } | undefined {
  const found = /^(\d{1,3})-of-(\d{1,3})$/.exec(value);
  const [times, tries] = [Number(found?.[1]), Number(found?.[2])];
  return found !== null && tries > 0 && times <= tries ? { times, tries } : undefined;
}

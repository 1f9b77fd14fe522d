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

/** The readings in an answer, whether they stand alone or behind a word. */
export function readingsIn({ value, readings }: AnswerValue): readonly string[] {
  return readings ?? (isWord(value) ? [] : [value]);
}

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

/** At most 40 characters of something hostile, for a message. */
export function shorten(text: string): string {
  return text.length > 40 ? `${text.slice(0, 40)}…` : text;
}

/** One answer of a diagnosis: what was read or seen, where. */
export interface Answer extends AnswerValue {
  /** Slug of the tree the answer was given in; undefined in the tree of the page. */
  readonly tree: string | undefined;
  readonly node: string;
  /** Stage, where the node is a path. */
  readonly stage: string | undefined;
  /** What a reading was taken with, where the reader chose it; missing for words and where nothing was chosen. */
  readonly instrument?: string;
}

/** The state of a diagnosis as the fragment of an address carries it. */
export interface LinkState {
  readonly unit: string | undefined;
  /** Class of instrument for what follows, or `own-0.5-2`; each reading keeps the one it was taken with. */
  readonly instrument: string | undefined;
  /** Repairs that did not cure, in order. */
  readonly did: readonly string[];
  /** The repair of `did` after which the unit was worse or different; printed as `did=fuse-open/worse`. */
  readonly worsened?: string;
  /** Checks that a helper asks for. */
  readonly ask: readonly string[];
  /** In the order of answering. */
  readonly answers: readonly Answer[];
}

/** A helper asks for so many checks at most. */
export const mostAsked = 5;

export const emptyLinkState: LinkState = { unit: undefined, instrument: undefined, did: [], ask: [], answers: [] };

/** In `did`: one's own last repair was looked over in vain. */
export const reworkRepair = 'rework';

/** The state with one more answer; an earlier answer to the same question is replaced, and stands last. */
export function withAnswer(state: LinkState, answer: Answer): LinkState {
  return {
    ...state,
    answers: [...state.answers.filter((given) => keyOfAnswer(given) !== keyOfAnswer(answer)), answer],
  };
}

/** What a question is known by: where it was asked. */
export interface Question {
  readonly tree?: string | undefined;
  readonly node: string;
  readonly stage?: string | undefined;
}

/** The key of an answer, the left side of its pair in a link: `node`, `path/stage` or `tree/node`. Equal for equal questions. */
export function keyOfAnswer({ tree, node, stage }: Question): string {
  return [tree, node, stage].filter((part) => part !== undefined).join('/');
}

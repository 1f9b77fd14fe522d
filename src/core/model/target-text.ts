import type { Band, Status, Target } from './target.ts';

/** A number as the trade prints it: a real minus sign, at most the digits it was given with. */
export function printNumber(value: number): string {
  return String(value).replace('-', '−');
}

/** A number with its unit and a no-break space: `4.75 V`, `20 %`. Signed for targets compared by magnitude. */
export function printLimit(value: number, target: Target): string {
  const sign = target.compare === 'magnitude' && target.sign === 'negative' && value !== 0 ? '−' : '';
  return `${sign}${printNumber(value)}\u00a0${target.unit}`;
}

/** The healthy interval in words: `4.75 to 5.25 V`, `at least 7 V`, `at most 50 mV`. */
export function printHealthy(target: Target): string {
  const healthy = target.bands.find(({ name }) => name === 'in');
  return healthy === undefined ? '' : printInterval(healthy, target);
}

/**
 * What bands of a target mean in numbers, those that touch as one: low and none are `below 4.75 V`. Empty where no word is a band.
 */
export function printBands(words: readonly string[], target: Target): string {
  const joined: Band[] = [];
  for (const band of target.bands.filter(({ name }) => words.includes(name))) {
    const last = joined.at(-1);
    if (last?.to !== undefined && last.to === band.from)
      joined.splice(-1, 1, { name: '', from: last.from, to: band.to });
    else joined.push(band);
  }
  return joined.map((band) => printInterval(band, target)).join(', or ');
}

/** What a band means in numbers, or undefined for a word that is no band. */
export function printBand(word: string, target: Target): string | undefined {
  const band = target.bands.find(({ name }) => name === word);
  return band === undefined ? undefined : printInterval(band, target);
}

function printInterval({ name, from, to }: Band, target: Target): string {
  if (from === undefined && to === undefined) return 'any reading';
  if (from === undefined) return `${name === 'in' ? 'at most' : 'below'} ${printLimit(to ?? 0, target)}`;
  if (to === undefined) return `${name === 'in' ? 'at least' : 'above'} ${printLimit(from, target)}`;
  const isSigned = target.compare === 'magnitude' && target.sign === 'negative';
  return isSigned
    ? `${printLimit(from, target)} to ${printLimit(to, target)}`
    : `${printNumber(from)} to ${printLimit(to, target)}`;
}

export const statusWords: Readonly<Record<Status, string>> = {
  read: 'read in a published source',
  memory: 'from memory of a published source, not read again',
  practice: 'common bench practice',
  computed: 'computed from published numbers',
};

/** What an outcome word is called on a button. */
export function printWord(word: string): string {
  const names: Readonly<Record<string, string>> = {
    in: 'In range',
    low: 'Low',
    high: 'High',
    none: 'Nothing there',
    warn: 'Doubtful',
    reversed: 'Wrong sign',
    sometimes: 'Only sometimes',
    follows: 'The fault follows the part',
    stays: 'The fault stays',
    'both-bad': 'Both are bad now',
  };
  if (Object.hasOwn(names, word)) return names[word] ?? word;
  const plain = word.replaceAll('-', ' ');
  return plain.charAt(0).toUpperCase() + plain.slice(1);
}

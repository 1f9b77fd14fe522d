import type { InstrumentClass } from '../model/instrument-class.ts';
import { type Reading, valueIn } from '../quantity/reading.ts';
import { assessDoubt, type Doubt, uncertaintyOfDifference } from './doubt.ts';

/** Readings of equal neighbours, one instrument, in the order of the neighbours. */
export interface SiblingComparison {
  /**
   * `alike`: no difference beyond doubt; `odd`: some stand out; `differ`: they differ, and nobody can say which is wrong;
   * `too-few`: fewer than two readings, or they cannot be compared.
   */
  readonly kind: 'alike' | 'odd' | 'differ' | 'too-few';
  /** Positions of those that stand out. */
  readonly odd: readonly number[];
  /** How far each stands from the middle of all: modified z-scores, or differences over their standard uncertainty for four and fewer. */
  readonly scores: readonly number[];
  /** In `unit`; undefined where no reading is a number. */
  readonly median: number | undefined;
  /** Of a difference between two of them, gain error cancelled, in `unit`. */
  readonly uncertainty: number;
  readonly method: 'modified-z-score' | 'instrument-doubt' | 'over-range';
}

/** What is compared: slug of a quantity, and the unit of the result. */
export interface SiblingQuantity {
  readonly quantity: string;
  readonly unit: string;
}

/** Two-sided 95 % of the normal distribution. */
const differs = 1.96;
/** Dixon's Q, two-sided 95 %, for three and four values (Rorabacher, Analytical Chemistry 63, 1991, pages 139 to 146; from memory). */
const dixon: Readonly<Record<number, number>> = { 3: 0.97, 4: 0.829 };
/** From five on a median deviation means something. */
const fewest = 5;

/**
 * The odd one out among equal neighbours; no published target is needed.
 *
 * Five and more: modified z-score above 3.5 (Iglewicz and Hoaglin 1993), the spread taken no smaller than the instrument's own doubt.
 * Two to four: a difference counts where it exceeds 1.96 standard uncertainties of a difference, the gain error of the one instrument
 * cancelled. One of three or four stands out where it differs from all others and these agree, or where Dixon's Q says so.
 * Over-range readings are set against those that are numbers: the fewer are the odd ones.
 * @example compareSiblings(eightOhms, { quantity: 'resistance', unit: 'Ω' }, meter) // { kind: 'odd', odd: [5], … }
 */
export function compareSiblings(
  readings: readonly Reading[],
  { quantity, unit }: SiblingQuantity,
  instrument: InstrumentClass | undefined,
): SiblingComparison {
  const values = readings.map((reading) => valueIn(reading, unit));
  const numbers = values.filter((value) => Number.isFinite(value));
  const median = numbers.length === 0 ? undefined : findMedian(numbers);
  const nothing = { odd: [], scores: values.map(() => 0), median, uncertainty: 0 } as const;
  if (readings.length < 2 || readings.some(({ base }) => base !== readings[0]?.base)) {
    return { kind: 'too-few', ...nothing, method: 'instrument-doubt' };
  }
  if (numbers.length < readings.length) return { ...nothing, ...setApart(values), method: 'over-range' };
  const doubts = readings.map((reading) => assessSibling(reading, { quantity, unit }, instrument));
  const [widest = doubts[0]] = doubts.toSorted(
    (a, b) => Math.hypot(b.fixed, b.halfDigit) - Math.hypot(a.fixed, a.halfDigit),
  );
  if (widest === undefined) return { kind: 'too-few', ...nothing, method: 'instrument-doubt' };
  const uncertainty = uncertaintyOfDifference(0, widest, widest);
  if (values.length < fewest) return { ...compareFew(values, doubts), median, uncertainty, method: 'instrument-doubt' };
  const scores = computeModifiedZScores(values, uncertainty);
  const odd = positionsWhere(scores, (score) => Math.abs(score) > outlierScore);
  return { kind: odd.length > 0 ? 'odd' : 'alike', odd, scores, median, uncertainty, method: 'modified-z-score' };
}

/** An instrument without figures for the quantity leaves the last digit's doubt. */
function assessSibling(
  reading: Reading,
  { quantity, unit }: SiblingQuantity,
  instrument: InstrumentClass | undefined,
): Doubt {
  const measurand = { quantity, unit, bands: [] };
  const digitsOnly = assessDoubt(reading, measurand, undefined);
  const doubt = assessDoubt(reading, measurand, instrument) ?? digitsOnly;
  if (doubt === undefined) throw new Error('A reading without an instrument always has a doubt.');
  return doubt;
}

function compareFew(
  values: readonly number[],
  doubts: readonly Doubt[],
): Pick<SiblingComparison, 'kind' | 'odd' | 'scores'> {
  const score = (one: number, other: number): number => {
    const [first, second] = [doubts[one], doubts[other]];
    const difference = (values[one] ?? 0) - (values[other] ?? 0);
    if (first === undefined || second === undefined || difference === 0) return 0;
    return difference / uncertaintyOfDifference(difference, first, second);
  };
  const positions = values.map((_, position) => position);
  const isApart = (one: number, other: number): boolean => Math.abs(score(one, other)) > differs;
  const nearestScore = (one: number): number =>
    positions
      .filter((other) => other !== one)
      .map((other) => score(one, other))
      .reduce((least, next) => (Math.abs(next) < Math.abs(least) ? next : least), Number.POSITIVE_INFINITY);
  const scores = positions.map(nearestScore);
  const anyApart = positions.some((one) => positions.some((other) => isApart(one, other)));
  if (!anyApart) return { kind: 'alike', odd: [], scores };
  if (values.length < 3) return { kind: 'differ', odd: [], scores };
  const odd = positions.filter((one) => {
    const rest = positions.filter((other) => other !== one);
    if (!rest.every((other) => isApart(one, other))) return false;
    return rest.every((other) => rest.every((third) => !isApart(other, third))) || exceedsDixon(one, values);
  });
  return { kind: odd.length === 1 ? 'odd' : 'differ', odd: odd.length === 1 ? odd : [], scores };
}

/** Gap to the nearest neighbour over the range of all, Dixon's Q; only the lowest and the highest can stand out. */
function exceedsDixon(position: number, values: readonly number[]): boolean {
  const value = values[position] ?? 0;
  const rest = values.filter((_, other) => other !== position);
  const low = Math.min(...rest);
  const high = Math.max(...rest);
  const gap = Math.max(low - value, value - high);
  return gap > 0 && gap / (gap + high - low) > (dixon[values.length] ?? 1);
}

function setApart(values: readonly number[]): Pick<SiblingComparison, 'kind' | 'odd' | 'scores'> {
  const open = positionsWhere(values, (value) => !Number.isFinite(value));
  const closed = positionsWhere(values, (value) => Number.isFinite(value));
  const odd = open.length < closed.length ? open : closed;
  const scores = values.map((_, position) => (odd.includes(position) ? Number.POSITIVE_INFINITY : 0));
  if (closed.length === 0) return { kind: 'alike', odd: [], scores: values.map(() => 0) };
  return open.length === closed.length ? { kind: 'differ', odd: [], scores } : { kind: 'odd', odd, scores };
}

function positionsWhere<Item>(items: readonly Item[], holds: (item: Item) => boolean): readonly number[] {
  return items.flatMap((item, position) => (holds(item) ? [position] : []));
}

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

/** Beyond this a value is an outlier (Iglewicz and Hoaglin, How to Detect and Handle Outliers, 1993, chapter 3). */
export const outlierScore = 3.5;

/** Φ⁻¹(0.75): the median absolute deviation of a normal distribution is this share of its standard deviation. */
const normalMad = 0.6745;
/** √(π/2): standard deviation of a normal distribution over its mean absolute deviation. */
const normalMeanDeviation = 1.253314;

/**
 * Modified z-score of each value, 0.6745 (x − median) / MAD (Iglewicz and Hoaglin 1993), in the order given.
 * `leastSpread` is the smallest standard deviation to believe in, in the unit of the values: the instrument's doubt keeps equal
 * displays from making the next digit an outlier. Where more than half of the values are equal and `leastSpread` is 0, the mean
 * absolute deviation takes the place of the MAD, (x − median) / (1.253314 × mean deviation). All equal gives zeros.
 * @example computeModifiedZScores([10, 12, 12, 13, 12, 11, 14, 300]) // … 1.349, 194.256
 */
export function computeModifiedZScores(values: readonly number[], leastSpread: number = 0): readonly number[] {
  const middle = findMedian(values);
  const distances = values.map((value) => Math.abs(value - middle));
  const spread = Math.max(findMedian(distances) / normalMad, leastSpread);
  if (spread > 0) return values.map((value) => (value - middle) / spread);
  const mean = distances.reduce((sum, distance) => sum + distance, 0) / Math.max(1, distances.length);
  return values.map((value) => (mean === 0 ? 0 : (value - middle) / (normalMeanDeviation * mean)));
}

/** The middle value, or the mean of the two middle ones; NaN for none. */
export function findMedian(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  const half = Math.floor(sorted.length / 2);
  const upper = sorted[half] ?? Number.NaN;
  return sorted.length % 2 === 1 ? upper : ((sorted[half - 1] ?? Number.NaN) + upper) / 2;
}

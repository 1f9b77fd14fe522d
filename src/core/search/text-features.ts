import { fnv1a } from '../model/fnv.ts';
import { fine, isUntroubled } from './lexicon.ts';
import type { Correction, ReadPhrase } from './read-phrase.ts';
import { readTokens, type Amount } from './read-tokens.ts';

/** A text as a sparse vector of length 1: which buckets, and how much in each. */
export interface TextFeatures {
  readonly buckets: Int32Array;
  readonly values: Float64Array;
}

/** What turns a text into features beside the text itself. */
export interface FeatureContext {
  /** Names of the concepts of the thesaurus, by number. */
  readonly names: readonly string[];
  /** Family of each part ("memory"), by its number in small letters. */
  readonly parts: ReadonlyMap<string, string>;
  /** Numbers of the concepts that are faults by their nature: "no hum" tells of what works. */
  readonly troubles: ReadonlySet<number>;
}

/** Features are counted into so many buckets; two that share one are told apart by their company. A power of two. */
export const bucketCount = 16_384;

const shortest = 2;
const longest = 5;
/** What each kind of feature weighs beside a word. Chosen by leaving hands out. */
const weights = { pair: 0.8, letters: 0.6, concept: 1.5, part: 1, amount: 1 } as const;

/**
 * The features of a text: words and pairs of words without their endings, stretches of two to five letters, concepts with what is said of
 * them, numbers by size and unit, part numbers by family. Words told of what works ("sound is fine") count apart from the same
 * words told of a fault. Length 1 (the Euclidean norm), or empty for a text without words.
 */
export function listFeatures(
  text: string,
  read: ReadPhrase,
  { names, parts, troubles }: FeatureContext,
  corrections: ReadonlyMap<string, Correction> = new Map(),
): TextFeatures {
  const found = new Map<number, number>();
  const put = (name: string, value: number): void => {
    const bucket = bucketOf(name);
    found.set(bucket, Math.max(found.get(bucket) ?? 0, value));
  };
  const small = text.toLowerCase();
  const healthy = read.mentions.filter((mention) => mention.polarity === fine || isUntroubled(troubles, mention));
  let before = '';
  for (const { stem, start, end, amount } of readTokens(text)) {
    const isHealthy = healthy.some((mention) => start >= mention.start && end <= mention.end);
    const mark = isHealthy ? 'fine ' : '';
    const word = corrections.get(stem)?.stem ?? stem;
    put(`${mark}${word}`, 1);
    if (before !== '') put(`${before} ${word}`, weights.pair);
    before = word;
    if (amount !== undefined) put(nameAmount(amount), weights.amount);
    const family = parts.get(small.slice(start, end)) ?? parts.get(word);
    if (family !== undefined) put(`part ${family}`, weights.part);
    const letters = `^${small.slice(start, end).slice(0, 24)}$`;
    for (const bucket of bucketsOfLetters(mark, letters)) {
      found.set(bucket, Math.max(found.get(bucket) ?? 0, weights.letters));
    }
  }
  for (const { concept, polarity, surety, isAside } of read.mentions) {
    put(`concept ${names[concept] ?? ''} ${polarity}`, weights.concept * surety * (isAside ? 0.5 : 1));
  }
  let squares = 0;
  for (const value of found.values()) squares += value * value;
  const length = Math.sqrt(squares) || 1;
  return {
    buckets: Int32Array.from(found.keys()),
    values: Float64Array.from(found.values(), (value) => value / length),
  };
}

/** While a person types all words but the last stay as they are, and most of a keystroke would be spent on their letters. */
const knownLetters = new Map<string, readonly number[]>();
const mostKnownLetters = 10_000;

function bucketsOfLetters(mark: string, letters: string): readonly number[] {
  const key = mark + letters;
  const known = knownLetters.get(key);
  if (known !== undefined) return known;
  const buckets: number[] = [];
  for (let length = shortest; length <= longest; length += 1) {
    for (let at = 0; at + length <= letters.length; at += 1)
      buckets.push(bucketOf(`${mark}~${letters.slice(at, at + length)}`));
  }
  if (knownLetters.size >= mostKnownLetters) knownLetters.clear();
  knownLetters.set(key, buckets);
  return buckets;
}

/** An amount by what it measures, its sign and its size: half octaves, so that 4.4 V and 5 V fall apart. */
function nameAmount({ quantity, value }: Amount): string {
  const size = value === 0 ? 'none' : Math.round(Math.log2(Math.abs(value)) * 3);
  return `amount ${quantity} ${Math.sign(value)} ${size}`;
}

/** Fowler, Noll and Vo's hash FNV-1a of 32 bits (IETF draft-eastlake-fnv), its high bits folded in. */
function bucketOf(name: string): number {
  const plain = fnv1a(name);
  const hash = Math.imul(plain ^ (plain >>> 15), 0x2c1b3c6d);
  return ((hash ^ (hash >>> 12)) >>> 0) % bucketCount;
}

import { stemWord } from './stem-word.ts';
import type { AmountMeaning, NextDoor, Thesaurus } from '../model/thesaurus.ts';

/** How a concept is spoken of: named, said to be missing or broken, said to work. */
export const named = 0;
export const gone = 1;
export const fine = 2;
export type Polarity = typeof named | typeof gone | typeof fine;

/** "No hum": what is missing is a fault, so all is well there. */
export function isUntroubled(
  troubles: ReadonlySet<number>,
  { concept, polarity }: { readonly concept: number; readonly polarity: Polarity },
): boolean {
  return polarity === gone && troubles.has(concept);
}

/** A concept (its number) and how it is spoken of, as one number. */
export function featureOf(concept: number, polarity: Polarity): number {
  return concept * 3 + polarity;
}

/** The concept of such a number. */
export function conceptOf(feature: number): number {
  return Math.floor(feature / 3);
}

export type Meaning =
  | { readonly kind: 'concept'; readonly concept: number; readonly polarity: Polarity }
  | { readonly kind: 'next-door'; readonly subject: number; readonly isHint: boolean }
  | { readonly kind: Marker };
export type Marker = 'before' | 'after' | 'fine' | 'boundary' | 'circumstance' | 'ordinary';

/** Two things spoken of close together that mean a third. */
export interface Pair {
  readonly first: Aspect;
  readonly second: Aspect;
  readonly concept: number;
}

export interface Aspect {
  readonly concept: number;
  /** Undefined: however it is spoken of. */
  readonly polarity: Polarity | undefined;
}

/** The thesaurus made ready for reading text. */
export interface Lexicon {
  readonly names: readonly string[];
  readonly near: readonly (readonly number[])[];
  readonly ours: ReadonlySet<number>;
  readonly troubles: ReadonlySet<number>;
  /** Meanings of each phrase, by its stems joined with a space. */
  readonly phrases: ReadonlyMap<string, readonly Meaning[]>;
  /** The most stems of any phrase that begins with this one. */
  readonly longestFrom: ReadonlyMap<string, number>;
  /** Beginnings of words that stand for all words that begin so. */
  readonly beginnings: readonly (readonly [beginning: string, meanings: readonly Meaning[]])[];
  readonly pairs: readonly Pair[];
  readonly amounts: readonly AmountMeaning[];
  readonly conceptOf: ReadonlyMap<string, number>;
}

/**
 * The thesaurus and the subjects next door with every word and phrase as stems joined by a space, each once and in the order of letters:
 * stemmed at build time, so that a phone neither fetches what means the same twice nor stems it before the first answer.
 */
export function stemPhrases(
  thesaurus: Thesaurus,
  nextDoor: readonly NextDoor[],
): { readonly thesaurus: Thesaurus; readonly nextDoor: readonly NextDoor[] } {
  const stem = (phrases: readonly string[]): readonly string[] =>
    [
      ...new Set(
        phrases
          .map((phrase) => (phrase.endsWith('*') ? phrase.toLowerCase() : stemsOf(phrase).join(' ')))
          .filter((phrase) => phrase !== ''),
      ),
    ].sort();
  const { concepts, absence, fine: works, circumstance, boundary, ordinary } = thesaurus;
  return {
    thesaurus: {
      ...thesaurus,
      concepts: Object.fromEntries(
        Object.entries(concepts).map(([name, { words, gone: absent, fine: healthy, ...concept }]) => [
          name,
          { ...concept, words: stem(words), gone: stem(absent), fine: stem(healthy) },
        ]),
      ),
      absence: { before: stem(absence.before), after: stem(absence.after) },
      fine: stem(works),
      circumstance: stem(circumstance),
      boundary: stem(boundary),
      ordinary: stem(ordinary),
    },
    nextDoor: nextDoor.map((door) => ({ ...door, words: stem(door.words), hints: stem(door.hints) })),
  };
}

/** Makes a lexicon of what `stemPhrases` gives. */
export function makeLexicon(thesaurus: Thesaurus, nextDoor: readonly NextDoor[]): Lexicon {
  const names = Object.keys(thesaurus.concepts);
  const concepts = Object.values(thesaurus.concepts);
  const conceptOf = new Map(names.map((name, index) => [name, index]));
  const phrases = new Map<string, Meaning[]>();
  const longestFrom = new Map<string, number>();
  const beginnings: [string, Meaning[]][] = [];
  const add = (phrase: string, meaning: Meaning): void => {
    if (phrase.endsWith('*')) {
      beginnings.push([phrase.slice(0, -1), [meaning]]);
      return;
    }
    const [first = '', ...more] = phrase.split(' ');
    const known = phrases.get(phrase) ?? [];
    if (known.some((other) => isSame(other, meaning))) return;
    phrases.set(phrase, [...known, meaning]);
    longestFrom.set(first, Math.max(longestFrom.get(first) ?? 0, more.length + 1));
  };
  for (const [concept, { words, gone: absent, fine: works }] of concepts.entries()) {
    for (const word of words) add(word, { kind: 'concept', concept, polarity: named });
    for (const word of absent) add(word, { kind: 'concept', concept, polarity: gone });
    for (const word of works) add(word, { kind: 'concept', concept, polarity: fine });
  }
  for (const [subject, { words, hints }] of nextDoor.entries()) {
    for (const word of words) add(word, { kind: 'next-door', subject, isHint: false });
    for (const word of hints) add(word, { kind: 'next-door', subject, isHint: true });
  }
  const { absence, fine: works, circumstance, boundary, ordinary } = thesaurus;
  const markers: readonly (readonly [Marker, readonly string[]])[] = [
    ['before', absence.before],
    ['after', absence.after],
    ['fine', works],
    ['circumstance', circumstance],
    ['boundary', boundary],
    ['ordinary', ordinary],
  ];
  for (const [kind, words] of markers) for (const word of words) add(word, { kind });
  return {
    names,
    near: concepts.map(({ near }) => near.flatMap((name) => conceptOf.get(name) ?? [])),
    ours: new Set(concepts.flatMap(({ ours }, index) => (ours ? [index] : []))),
    troubles: new Set(concepts.flatMap(({ trouble }, index) => (trouble ? [index] : []))),
    phrases,
    longestFrom,
    beginnings,
    pairs: concepts.flatMap(({ together }, concept) => together.flatMap((text) => readPair(text, concept, conceptOf))),
    amounts: thesaurus.amounts,
    conceptOf,
  };
}

/** Stems of a thesaurus entry. */
function stemsOf(phrase: string): readonly string[] {
  return [...phrase.toLowerCase().matchAll(/[\p{L}\p{N}]+(?:[.'’][\p{L}\p{N}]+)*/gu)].map(([word]) =>
    stemWord(word.replaceAll(/['’]/g, '')),
  );
}

/** `lamp fine` as a concept and how it is spoken of; undefined where there is no such concept. */
export function readAspect(text: string, conceptOf: ReadonlyMap<string, number>): Aspect | undefined {
  const [name = '', how] = text.split(' ');
  const concept = conceptOf.get(name);
  if (concept === undefined) return undefined;
  return { concept, polarity: how === 'gone' ? gone : how === 'fine' ? fine : how === 'named' ? named : undefined };
}

function readPair(text: string, concept: number, conceptOf: ReadonlyMap<string, number>): readonly Pair[] {
  const words = text.split(' ');
  const isSecondPolarity = words.length === 2 && /^(?:gone|fine|named)$/.test(words[1] ?? '');
  if (isSecondPolarity) {
    const only = readAspect(text, conceptOf);
    return only === undefined ? [] : [{ first: only, second: only, concept }];
  }
  const first = readAspect(words[0] ?? '', conceptOf);
  const second = readAspect(words.slice(1).join(' '), conceptOf);
  return first === undefined || second === undefined ? [] : [{ first, second, concept }];
}

function isSame(one: Meaning, other: Meaning): boolean {
  if (one.kind === 'concept' && other.kind === 'concept') {
    return one.concept === other.concept && one.polarity === other.polarity;
  }
  if (one.kind === 'next-door' && other.kind === 'next-door') return one.subject === other.subject;
  return one.kind === other.kind && one.kind !== 'concept' && one.kind !== 'next-door';
}

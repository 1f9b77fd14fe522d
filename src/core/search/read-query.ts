import type { NextDoor } from '../model/thesaurus.ts';
import { featureOf, fine, named } from './lexicon.ts';
import type { OpenSearch } from './open-search.ts';
import { type Correction, type Mention, type ReadPhrase, readPhrase } from './read-phrase.ts';
import { readTokens } from './read-tokens.ts';
import { listFeatures, type TextFeatures } from './text-features.ts';

/** A query as understood. */
export interface ReadQuery {
  readonly text: string;
  readonly read: ReadPhrase;
  /** Each thing spoken of once, with what it weighs: rarity times how surely it was said. */
  readonly claims: readonly Claim[];
  /** Words as such that trees use. */
  readonly words: readonly {
    readonly stem: string;
    readonly weight: number;
    readonly isConcept: boolean;
    readonly clause: number;
  }[];
  /** Weight of what nothing here speaks of, and how many such words there are. */
  readonly foreignWeight: number;
  readonly strangers: number;
  /** How many of its words were taken for others. */
  readonly corrected: number;
  /** Subjects next door that it speaks of. */
  readonly doors: ReadPhrase['nextDoor'];
  /** Dangers that it speaks of, in the order of next-door.yaml: what concerns our trees too, and has a caution. */
  readonly warnings: readonly NextDoor[];
  /** It names a kind of unit that these pages are about. */
  readonly isOurs: boolean;
  /** What the taught model weighs. */
  readonly features: TextFeatures;
  /** Stems that are in no list yet: a corrector may know what they are meant to be. */
  readonly unread: readonly string[];
}

export interface Claim extends Mention {
  readonly weight: number;
  /** It tells that something works: says what the fault is not. */
  readonly isPassing: boolean;
}

/** What each kind of thing in a query weighs. Set on tests/bench/queries-tuned.tsv. */
const weights = { aside: 0.5, passing: 0.5, word: 0.35, conceptWord: 0.25, foreign: 1.2, hint: 0.8 } as const;

/** Reads a query. `isTyping`: its last word may be unfinished. */
export function readQuery(search: OpenSearch, query: string, isTyping: boolean): ReadQuery {
  const { corrections, unread, unfinished } = correctWords(search, query, isTyping);
  const read = readPhrase(query, search.lexicon, corrections);
  const claims = new Map<number, Claim>();
  for (const mention of read.mentions) {
    const isPassing = mention.polarity === fine;
    const rarity = search.conceptRarity[mention.concept] ?? 1;
    const weight = rarity * mention.surety * (mention.isAside ? weights.aside : 1) * (isPassing ? weights.passing : 1);
    const feature = featureOf(mention.concept, mention.polarity);
    const known = claims.get(feature);
    if (known === undefined || known.weight < weight) claims.set(feature, { ...mention, weight, isPassing });
  }
  const words = new Map<string, ReadQuery['words'][number]>();
  const strangers = new Set<string>();
  for (const { stem, surety, isConcept, clause } of read.words) {
    const rarity = search.wordRarity.get(stem);
    if (rarity !== undefined) {
      const weight = rarity * surety * (isConcept ? weights.conceptWord : weights.word);
      words.set(stem, { stem, weight, isConcept, clause });
    } else if (!isConcept && stem.length > 2 && stem !== unfinished && !search.trade.has(stem)) strangers.add(stem);
  }
  const isWarning = ({ subject }: ReadPhrase['nextDoor'][number]): boolean => {
    const door = search.index.nextDoor[subject];
    return door?.caution !== undefined && !door.isLethal;
  };
  const doors = read.nextDoor.filter((door) => !isWarning(door));
  const hints = doors.filter(({ isHint, isAside }) => isHint && !isAside).length;
  return {
    text: query,
    read,
    claims: [...claims.values()],
    words: [...words.values()],
    strangers: strangers.size,
    corrected: corrections.size,
    doors,
    warnings: search.index.nextDoor.filter(
      ({ concepts, caution, isLethal }, subject) =>
        caution !== undefined &&
        !isLethal &&
        (read.nextDoor.some((door) => door.subject === subject) ||
          read.mentions.some(
            ({ concept, polarity }) => polarity === named && concepts.includes(search.lexicon.names[concept] ?? ''),
          )),
    ),
    isOurs: read.mentions.some(({ concept }) => search.lexicon.ours.has(concept)),
    features: listFeatures(query, read, search.features, corrections),
    foreignWeight: Math.min(6, strangers.size) * weights.foreign + Math.min(4, hints) * weights.hint,
    unread,
  };
}

/** What unknown stems are taken for: remembered corrections, two known words written as one, the beginning of a word. */
function correctWords(
  search: OpenSearch,
  query: string,
  isTyping: boolean,
): {
  readonly corrections: ReadonlyMap<string, Correction>;
  readonly unread: readonly string[];
  /** The last word, where it is neither known nor finished. */
  readonly unfinished: string | undefined;
} {
  const corrections = new Map<string, Correction>();
  const unread: string[] = [];
  let unfinished: string | undefined;
  const tokens = readTokens(query);
  const isUnfinished = isTyping && /[\p{L}\p{N}]$/u.test(query);
  for (const [index, { stem, amount }] of tokens.entries()) {
    if (amount !== undefined || search.known.has(stem) || stem.length < 3 || /\d/.test(stem)) continue;
    if (search.lexicon.beginnings.some(([begin]) => stem.startsWith(begin))) continue;
    const isLast = isUnfinished && index === tokens.length - 1;
    const whole = stem.length >= (isLast ? 3 : 4) ? completeWord(search, stem) : undefined;
    if (whole !== undefined) {
      corrections.set(stem, { stem: whole, surety: isLast ? 0.6 : 0.8 });
      continue;
    }
    const remembered = search.corrections.get(stem);
    if (remembered !== undefined) corrections.set(stem, remembered);
    else if (isLast) unfinished = stem;
    else if (!search.corrections.has(stem)) unread.push(stem);
  }
  return { corrections, unread, unfinished };
}

/** The shortest known word that begins with `stem`; ties by alphabet. Cost: a binary search and the words that fit. */
function completeWord({ vocabulary }: OpenSearch, stem: string): string | undefined {
  let low = 0;
  let high = vocabulary.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((vocabulary[middle] ?? '') < stem) low = middle + 1;
    else high = middle;
  }
  let best: string | undefined;
  for (let at = low; vocabulary[at]?.startsWith(stem) === true; at += 1) {
    const word = vocabulary[at] ?? '';
    if (best === undefined || word.length < best.length) best = word;
  }
  return best;
}

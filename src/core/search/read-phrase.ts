import { type Aspect, fine, gone, type Lexicon, type Marker, type Meaning, named, type Polarity } from './lexicon.ts';
import { type Amount, readTokens, type Token } from './read-tokens.ts';

/** What a misspelt word is taken for, and how surely: 1 for certain. */
export interface Correction {
  readonly stem: string;
  readonly surety: number;
}

/** A concept found in a text: which, how spoken of, how surely (0 to 1), where. */
export interface Mention {
  readonly concept: number;
  readonly polarity: Polarity;
  readonly surety: number;
  readonly start: number;
  readonly end: number;
  /** Number of the clause it stands in, from 0. */
  readonly clause: number;
  /** It is told as a circumstance ("when the heater cuts in"). */
  readonly isAside: boolean;
}

/** A word of a text as such. */
export interface WordMention {
  readonly stem: string;
  readonly surety: number;
  readonly start: number;
  readonly end: number;
  readonly clause: number;
  /** The thesaurus has it under a concept. */
  readonly isConcept: boolean;
}

export interface ReadPhrase {
  readonly mentions: readonly Mention[];
  readonly words: readonly WordMention[];
  readonly amounts: readonly Amount[];
  /** Where each clause lies in the text, [start, end). */
  readonly clauses: readonly (readonly [start: number, end: number])[];
  /** Subjects of next-door.yaml, by number; `isAside` where only told as a circumstance, `surety` below 1 where a word was misspelt. */
  readonly nextDoor: readonly {
    readonly subject: number;
    readonly isHint: boolean;
    readonly isAside: boolean;
    readonly surety: number;
  }[];
}

interface Item {
  readonly meanings: readonly Meaning[];
  readonly stems: readonly string[];
  surety: number;
  readonly start: number;
  readonly end: number;
  readonly clause: number;
  readonly isAside: boolean;
  readonly amount: Amount | undefined;
  /** Spoken of as the reading of the whole phrase has it, where that differs from the word's own. */
  polarity: Polarity | undefined;
}

/**
 * Reads a text by the lexicon: concepts with what is said of them ("no sound" is sound, gone), words, amounts.
 * `corrections` maps misspelt stems to what they are taken for.
 */
export function readPhrase(
  text: string,
  lexicon: Lexicon,
  corrections: ReadonlyMap<string, Correction> = new Map(),
): ReadPhrase {
  const items = findItems(readTokens(text), lexicon, corrections);
  bindAbsence(items, lexicon);
  const mentions = items.flatMap((item) => mentionsOf(item, lexicon));
  const conceptCount = items.filter(isConcept).length;
  return {
    mentions: [...mentions, ...findPairs(mentions, lexicon)],
    words: items.flatMap(wordsOf),
    amounts: items.flatMap(({ amount }) => amount ?? []),
    clauses: findClauses(items),
    nextDoor: items.flatMap((item) => {
      // A word that means something here as well ("drone") decides only where nothing else is spoken of.
      const isDouble = conceptCount > 1 && isConcept(item);
      return item.meanings.flatMap((meaning) =>
        meaning.kind === 'next-door' && !(isDouble && meaning.isHint)
          ? [
              {
                subject: meaning.subject,
                isHint: meaning.isHint || isDouble,
                isAside: item.isAside,
                surety: item.surety,
              },
            ]
          : [],
      );
    }),
  };
}

/** Cuts tokens into items: the longest phrase the lexicon knows at each place, or the word alone. */
function findItems(tokens: readonly Token[], lexicon: Lexicon, corrections: ReadonlyMap<string, Correction>): Item[] {
  const items: Item[] = [];
  const right = tokens.map(({ stem, amount }) => (amount === undefined ? corrections.get(stem) : undefined));
  const stems = tokens.map(({ stem }, index) => right[index]?.stem ?? stem);
  let clause = 0;
  let isAside = false;
  for (let at = 0; at < tokens.length;) {
    const token = tokens[at];
    if (token === undefined) break;
    if (token.isAfterStop) {
      clause += 1;
      isAside = false;
    }
    const { length, meanings } = meaningsAt(tokens, stems, at, lexicon);
    const last = tokens[at + length - 1] ?? token;
    if (meanings.some(({ kind }) => kind === 'boundary')) {
      clause += 1;
      isAside = false;
    }
    if (meanings.some(({ kind }) => kind === 'circumstance')) isAside = true;
    items.push({
      meanings,
      stems: stems.slice(at, at + length),
      surety: Math.min(...right.slice(at, at + length).map((correction) => correction?.surety ?? 1)),
      start: token.start,
      end: last.end,
      clause,
      isAside,
      amount: token.amount,
      polarity: undefined,
    });
    at += length;
  }
  return items;
}

function meaningsAt(
  tokens: readonly Token[],
  stems: readonly string[],
  at: number,
  lexicon: Lexicon,
): { readonly length: number; readonly meanings: readonly Meaning[] } {
  const stem = stems[at] ?? '';
  const amount = tokens[at]?.amount;
  if (amount !== undefined) return { length: 1, meanings: meaningsOfAmount(amount, lexicon) };
  for (let length = Math.min(lexicon.longestFrom.get(stem) ?? 0, stems.length - at); length > 0; length -= 1) {
    const meanings = lexicon.phrases.get(stems.slice(at, at + length).join(' '));
    const isCut = tokens.slice(at + 1, at + length).some(({ isAfterStop }) => isAfterStop);
    if (meanings !== undefined && !isCut) return { length, meanings };
  }
  const beginning = lexicon.beginnings.find(([begin]) => stem.startsWith(begin) && stem.length > begin.length);
  return { length: 1, meanings: beginning?.[1] ?? [] };
}

function meaningsOfAmount({ quantity, value, isExact }: Amount, lexicon: Lexicon): readonly Meaning[] {
  const found = lexicon.amounts.find((row) => row.quantity === quantity && value >= row.from && value <= row.to);
  if (found === undefined) return [{ kind: 'ordinary' }];
  const concepts = found.means.flatMap((name): Meaning[] => {
    const concept = lexicon.conceptOf.get(name);
    return concept === undefined
      ? []
      : [{ kind: 'concept', concept, polarity: isExact && found.healthy ? fine : named }];
  });
  return [
    ...concepts,
    ...(isExact && found.healthy ? [{ kind: 'fine' as const }] : []),
    ...(found.absent ? [{ kind: 'after' as const }] : []),
    { kind: 'ordinary' },
  ];
}

function has(item: Item | undefined, marker: Marker): boolean {
  return item?.meanings.some(({ kind }) => kind === marker) ?? false;
}

/** "Lights up", "plays": words that by themselves say that a concept works. */
function isSaidFine(item: Item): boolean {
  return item.meanings.some((meaning) => meaning.kind === 'concept' && meaning.polarity === fine);
}

function isConcept(item: Item): boolean {
  return item.meanings.some(({ kind }) => kind === 'concept');
}

function isNamed(item: Item | undefined): boolean {
  return item?.meanings.some((meaning) => meaning.kind === 'concept' && meaning.polarity === named) ?? false;
}

/** "Speaker dead" says little of the whole unit: how much of "dead" is left then. Our judgement. */
const partSurety = 0.3;

function isUnit(item: Item, lexicon: Lexicon): boolean {
  return item.meanings.some((meaning) => {
    if (meaning.kind !== 'concept') return false;
    return lexicon.ours.has(meaning.concept) || /^(?:machine|board)$/.test(lexicon.names[meaning.concept] ?? '');
  });
}

const reachAhead = 4;
const reachBack = 5;

/** Gives "no", "missing", "works" and the like to the words they speak of. Changes the items' polarity. */
function bindAbsence(items: Item[], lexicon: Lexicon): void {
  const spent = new Set<Item>();
  const isWithin = (item: Item, other: Item | undefined): other is Item =>
    other !== undefined && other.clause === item.clause;
  const findAhead = (at: number, reach: number, test: (item: Item) => boolean): Item | undefined => {
    const item = items[at];
    for (let index = at + 1; item !== undefined && index <= at + reach; index += 1) {
      const other = items[index];
      if (!isWithin(item, other)) return undefined;
      if (test(other)) return other;
    }
    return undefined;
  };
  const findBack = (at: number, reach: number): Item | undefined => {
    const item = items[at];
    for (let index = at - 1; item !== undefined && index >= 0 && index >= at - reach; index -= 1) {
      const other = items[index];
      if (!isWithin(item, other)) return undefined;
      if (isNamed(other) && !isUsed(other)) return other;
    }
    return undefined;
  };
  const isUsed = (item: Item): boolean => item.polarity !== undefined;
  const life = lexicon.conceptOf.get('life');
  const lifeGone: Meaning | undefined =
    life === undefined ? undefined : { kind: 'concept', concept: life, polarity: gone };

  for (const [at, item] of items.entries()) {
    const isBefore = has(item, 'before');
    const isAfter = has(item, 'after');
    // "Not the fuse" says that the fuse is whole.
    const excluded =
      isBefore && item.stems[0] === 'not' && items[at + 1]?.stems[0] === 'the' ? items[at + 2] : undefined;
    if (isNamed(excluded) && isWithin(item, excluded)) {
      excluded.polarity = fine;
      continue;
    }
    if (spent.has(item) || (!isBefore && !isAfter)) continue;
    const next = items[at + 1];
    const speaksAhead = isBefore && (!isAfter || /^(?:from|on|at|of|in|out)$/.test(next?.stems[0] ?? ''));
    const ahead = (): boolean => {
      const other = findAhead(
        at,
        reachAhead,
        (candidate) => isNamed(candidate) || isSaidFine(candidate) || has(candidate, 'fine'),
      );
      if (other === undefined) return false;
      if (isSaidFine(other)) {
        other.polarity = gone;
        spent.add(other);
        return true;
      }
      if (has(other, 'fine') && !isNamed(other)) {
        spent.add(other);
        const before = findBack(at, reachBack);
        if (before !== undefined) before.polarity = gone;
        else if (lifeGone !== undefined)
          items[items.indexOf(other)] = { ...other, meanings: [...other.meanings, lifeGone] };
        return true;
      }
      other.polarity = gone;
      const index = items.indexOf(other);
      const isMore = /^(?:n?or)$/.test(items[index + 1]?.stems[0] ?? '');
      const more = isMore ? findAhead(index + 1, 2, isNamed) : undefined;
      if (more !== undefined) more.polarity = gone;
      return true;
    };
    const back = (): boolean => {
      const other = findBack(at, isAfter ? reachBack : 4);
      if (other === undefined) return false;
      other.polarity = gone;
      if (!isUnit(other, lexicon)) item.surety *= partSurety;
      return true;
    };
    if (speaksAhead) {
      if (!ahead()) back();
    } else if (!back()) ahead();
  }
  for (const [at, item] of items.entries()) {
    if (!has(item, 'fine') || spent.has(item)) continue;
    const next = items[at + 1]?.stems[0] ?? '';
    if (item.amount === undefined && /^(?:only|when|if|after|until|unless|on|for|then)$/.test(next)) continue;
    const other =
      findBack(at, 3) ??
      findAhead(at, item.amount === undefined ? 2 : 3, (candidate) => isNamed(candidate) && !isUsed(candidate));
    if (other !== undefined) other.polarity = fine;
  }
}

function mentionsOf(item: Item, lexicon: Lexicon): readonly Mention[] {
  const { start, end, clause, isAside, surety } = item;
  return item.meanings.flatMap((meaning) => {
    if (meaning.kind !== 'concept') return [];
    const polarity = meaning.polarity === gone ? gone : (item.polarity ?? meaning.polarity);
    return lexicon.names[meaning.concept] === undefined
      ? []
      : [{ concept: meaning.concept, polarity, surety, start, end, clause, isAside }];
  });
}

/** Concepts that two others, at most 24 characters apart in one clause, mean together. */
function findPairs(mentions: readonly Mention[], lexicon: Lexicon): readonly Mention[] {
  const fits = ({ concept, polarity }: Mention, aspect: Aspect): boolean =>
    concept === aspect.concept && (aspect.polarity === undefined || polarity === aspect.polarity);
  // Most pairs have nothing to do with most texts.
  const spoken = new Set(mentions.map(({ concept }) => concept));
  return lexicon.pairs.flatMap(({ first, second, concept }) => {
    if (!spoken.has(first.concept) || !spoken.has(second.concept)) return [];
    if (first === second) {
      const only = mentions.find((mention) => fits(mention, first));
      return only === undefined ? [] : [{ ...only, concept, polarity: only.polarity, surety: only.surety * 0.9 }];
    }
    for (const one of mentions) {
      if (!fits(one, first)) continue;
      const other = mentions.find(
        (mention) => fits(mention, second) && mention.clause === one.clause && distance(one, mention) <= 24,
      );
      if (other !== undefined) {
        const polarity =
          one.polarity === gone || other.polarity === gone
            ? gone
            : one.polarity === fine || other.polarity === fine
              ? fine
              : named;
        return [
          {
            ...one,
            concept,
            polarity,
            surety: Math.min(one.surety, other.surety) * 0.9,
            end: Math.max(one.end, other.end),
            start: Math.min(one.start, other.start),
          },
        ];
      }
    }
    return [];
  });
}

function findClauses(items: readonly Item[]): readonly (readonly [number, number])[] {
  const clauses: [number, number][] = [];
  for (const item of items) {
    const { start, end, clause } = item;
    const known = clauses[clause];
    // The word that parts two clauses ("and") belongs to neither.
    if (known === undefined) clauses[clause] = has(item, 'boundary') ? [end, end] : [start, end];
    else known[1] = end;
  }
  return clauses;
}

function distance(one: Mention, other: Mention): number {
  return Math.max(one.start - other.end, other.start - one.end);
}

function wordsOf(item: Item): readonly WordMention[] {
  const kinds = new Set(item.meanings.map(({ kind }) => kind));
  const isConcept = kinds.has('concept');
  if (item.amount !== undefined || (kinds.size > 0 && !isConcept)) return [];
  const { start, end, clause, surety } = item;
  return item.stems
    .filter((stem) => !/^\d{1,2}$/.test(stem))
    .map((stem) => ({ stem, surety, start, end, clause, isConcept }));
}

import { featureOf, fine, gone, type Lexicon, makeLexicon, named, readAspect, type Polarity } from './lexicon.ts';
import { type Correction, type ReadPhrase, readPhrase } from './read-phrase.ts';
import type { NamedPage, SearchIndex } from './search-index.ts';
import { openModel, type OpenModel } from './taught-model.ts';
import type { FeatureContext } from './text-features.ts';

/** A named page, its number, the words of its title, and in order those that are not ordinary. */
export interface CalledPage {
  readonly page: NamedPage;
  readonly number: number;
  readonly all: ReadonlySet<string>;
  readonly name: readonly string[];
}

/** A search index made ready for questions. */
export interface OpenSearch {
  readonly index: SearchIndex;
  readonly lexicon: Lexicon;
  readonly model: OpenModel;
  readonly features: FeatureContext;
  /** Stems of the trade: they never speak against a fit. */
  readonly trade: ReadonlySet<string>;
  /** Every stem that is known, sorted; and the same with those first that trees use most. */
  readonly vocabulary: readonly string[];
  readonly byUse: readonly string[];
  readonly known: ReadonlySet<string>;
  readonly postings: ReadonlyMap<number, readonly number[]>;
  readonly wordPostings: ReadonlyMap<string, readonly number[]>;
  /** How rare a concept or a word is over the trees, 0 (in all) to 1 (in one or none). */
  readonly conceptRarity: readonly number[];
  readonly wordRarity: ReadonlyMap<string, number>;
  /** For each sign, what answers it in passing. */
  readonly signAspects: readonly {
    readonly sign: string;
    readonly answer: 'yes' | 'no';
    readonly concept: number;
    readonly polarity: Polarity | undefined;
  }[];
  /** Named pages with the stems of their titles, by each word that calls them; filled when first asked for. */
  readonly pagesByStem: Map<string, CalledPage[]>;
  /** Symptom phrases as read, by tree, filled as they are asked for. */
  readonly readSymptoms: Map<number, readonly ReadPhrase[]>;
  /** Trees that clauses by themselves were found to mean, by their words: all but the last stay while a person types. */
  readonly clauses: Map<string, number | undefined>;
  /** What misspelt stems were found to mean; undefined: looked for, nothing found. */
  readonly corrections: Map<string, Correction | undefined>;
}

/** Prepares an index. Cost: one pass over the thesaurus and the postings. */
export function openSearch(index: SearchIndex): OpenSearch {
  const lexicon = makeLexicon(index.thesaurus, index.nextDoor);
  const postings = new Map(Object.entries(index.features).map(([feature, row]) => [Number(feature), row]));
  const wordPostings = new Map(Object.entries(index.words));
  const known = new Set([
    ...[...lexicon.phrases.keys()].flatMap((phrase) => phrase.split(' ')),
    ...wordPostings.keys(),
    ...index.trade,
  ]);
  const vocabulary = [...known].sort();
  const useOf = new Map([...wordPostings].map(([word, row]) => [word, sumStrengths(row)]));
  const treeCount = index.trees.length;
  return {
    index,
    lexicon,
    model: openModel(
      index.model,
      index.trees.map(({ slug }) => slug),
    ),
    features: {
      names: lexicon.names,
      parts: new Map(Object.entries(index.parts)),
      troubles: lexicon.troubles,
    },
    trade: new Set(index.trade),
    vocabulary,
    byUse: vocabulary.toSorted((a, b) => (useOf.get(b) ?? 0) - (useOf.get(a) ?? 0)),
    known,
    postings,
    wordPostings,
    conceptRarity: lexicon.names.map((_, concept) => {
      const strengths = new Map<number, number>();
      for (const polarity of [named, gone, fine] as const) {
        forEachPosting(postings.get(featureOf(concept, polarity)), (tree, strength) =>
          strengths.set(tree, Math.max(strengths.get(tree) ?? 0, strength)),
        );
      }
      return (
        rarityOf(sum([...strengths.values()].map((x) => x ** strengthPower)), treeCount) *
        (lexicon.ours.has(concept) ? unitShare : 1)
      );
    }),
    wordRarity: new Map([...useOf].map(([word, use]) => [word, rarityOf(use, treeCount)])),
    signAspects: Object.entries(index.thesaurus.signs).flatMap(([sign, answers]) =>
      (['yes', 'no'] as const).flatMap((answer) =>
        answers[answer].flatMap((text) => {
          const aspect = readAspect(text, lexicon.conceptOf);
          return aspect === undefined ? [] : [{ sign, answer, ...aspect }];
        }),
      ),
    ),
    pagesByStem: new Map(),
    clauses: new Map(),
    readSymptoms: new Map(),
    corrections: new Map(),
  };
}

/** Strong mentions count for more than weak ones in how common a concept is. */
const strengthPower = 1.5;
/** Kinds of unit ("computer") say little of a fault. */
const unitShare = 0.25;
const rarityPrior = 1;

/** Calls `visit` with each tree's number and strength (0 to 1). */
export function forEachPosting(
  row: readonly number[] | undefined,
  visit: (tree: number, strength: number) => void,
): void {
  if (row === undefined) return;
  for (let at = 0; at + 1 < row.length; at += 2) visit(row[at] ?? 0, (row[at + 1] ?? 0) / 99);
}

function sumStrengths(row: readonly number[]): number {
  let total = 0;
  forEachPosting(row, (_, strength) => {
    total += strength;
  });
  return total;
}

/**
 * Rarity of something that `weight` trees speak of (strengths added), of `count`: inverse document frequency
 * (Sparck Jones 1972), smoothed and scaled to 0..1.
 */
function rarityOf(weight: number, count: number): number {
  return Math.log(1 + count / (rarityPrior + weight)) / Math.log(1 + count / rarityPrior);
}

/** The symptom phrases of a tree as read; remembered. */
export function symptomsOf(search: OpenSearch, tree: number): readonly ReadPhrase[] {
  const known = search.readSymptoms.get(tree);
  if (known !== undefined) return known;
  const read = (search.index.trees[tree]?.symptoms ?? []).map((symptom) => readPhrase(symptom, search.lexicon));
  search.readSymptoms.set(tree, read);
  return read;
}

function sum(values: Iterable<number>): number {
  let total = 0;
  for (const value of values) total += value;
  return total;
}

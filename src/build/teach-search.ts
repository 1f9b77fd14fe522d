import type { FaultTree } from '#core/model/fault-tree.ts';
import type { Library } from '#core/model/library.ts';
import { nodeProse } from '#core/model/node.ts';
import { makeCorrector } from '#core/search/correct-words.ts';
import { addScores, type Choice, fitChoices, fitClasses, fitOneClass, type TaughtRow } from '#core/search/fit-model.ts';
import { type OpenSearch, openSearch } from '#core/search/open-search.ts';
import { gatherEvidence } from '#core/search/rank-trees.ts';
import { readQuery, type ReadQuery } from '#core/search/read-query.ts';
import { scoreTrees, type ScoredTree } from '#core/search/score-trees.ts';
import { buildSearchIndex, type SearchIndex } from '#core/search/search-index.ts';
import {
  mostLevel,
  noneClass,
  openModel,
  packWeights,
  scoreClasses,
  type TaughtModel,
} from '#core/search/taught-model.ts';
import type { TextFeatures } from '#core/search/text-features.ts';

/** A query in a stranger's words, with the trees that answer it, the best first; none where it is not ours. */
export interface TaughtQuery {
  readonly text: string;
  readonly trees: readonly string[];
  /** Who wrote it: a letter, or `own` for the project's own, which teach and never judge. */
  readonly hand: string;
}

/** Queries of a table `query, best tree, also acceptable, hand`. */
export function readQueries(table: string): readonly TaughtQuery[] {
  return table
    .split('\n')
    .slice(1)
    .filter((line) => line.trim() !== '')
    .map((line) => {
      const [text = '', best = '', also = '', hand = ''] = line.split('\t');
      return { text, trees: best === noneClass ? [] : [best, ...also.split(',').filter((slug) => slug !== '')], hand };
    });
}

export interface Case extends TaughtQuery {
  readonly query: ReadQuery;
  /** What the concepts make of it, whatever a model has learned. */
  readonly byConcept: readonly ScoredTree[];
}

/** Everything that teaching reads, read once. */
export interface School {
  readonly search: OpenSearch;
  readonly classes: readonly string[];
  readonly cases: readonly Case[];
  readonly textRows: readonly TaughtRow[];
}

/** What a row of a tree's own text weighs beside a query. */
const textWeights = { title: 1, symptom: 1, summary: 0.5, node: 0.3, prose: 0.1, nextDoor: 0.2 } as const;

/** Reads library and queries for teaching. */
export function openSchool(library: Library, queries: readonly TaughtQuery[]): School {
  const search = openSearch(buildSearchIndex(library));
  const corrector = makeCorrector(search.byUse);
  const read = (text: string): ReadQuery => {
    for (const stem of readQuery(search, text, false).unread) search.corrections.set(stem, corrector(stem));
    return readQuery(search, text, false);
  };
  const slugs = new Set([...library.trees.keys(), ...queries.flatMap(({ trees }) => trees.slice(0, 1))]);
  const classes = [...[...slugs].sort(), noneClass];
  const numbers = new Map(classes.map((slug, index) => [slug, index]));
  const features = (text: string): TextFeatures => readQuery(search, text, false).features;
  return {
    search,
    classes,
    cases: queries.map((each) => {
      const query = read(each.text);
      return { ...each, query, byConcept: scoreTrees(search, query) };
    }),
    textRows: [
      ...[...library.trees.values()].flatMap((tree) => {
        const index = numbers.get(tree.slug) ?? 0;
        return listTexts(tree).map(([text, weight]) => ({ features: features(text), classes: [index], weight }));
      }),
      // A danger that is not lethal is told of units of ours as well.
      ...[...library.nextDoor.values()]
        .filter(({ caution, isLethal }) => caution === undefined || isLethal)
        .flatMap(({ title, words }) =>
          [title, ...words].map((text) => ({
            features: features(text),
            classes: [classes.length - 1],
            weight: textWeights.nextDoor,
          })),
        ),
    ],
  };
}

/** A tree's own words, each with its weight: they teach where no stranger has asked yet. */
function listTexts(tree: FaultTree): readonly (readonly [text: string, weight: number])[] {
  return [
    [tree.title, textWeights.title],
    ...tree.symptoms.map((symptom) => [symptom, textWeights.symptom] as const),
    [tree.summary, textWeights.summary],
    ...tree.nodes
      .filter(({ kind }) => kind !== 'elsewhere' && kind !== 'hand-over')
      .flatMap((node) => [
        [node.title, textWeights.node] as const,
        ...(node.kind === 'path' ? node.stages.map(({ title }) => [title, textWeights.node] as const) : []),
        ...nodeProse(node).map((text) => [text, textWeights.prose] as const),
      ]),
  ];
}

/** The linear weights that the rows teach. */
export function fitLinear({ classes, cases, textRows }: School, isTeaching: (hand: string) => boolean): Float32Array {
  const numbers = new Map(classes.map((slug, index) => [slug, index]));
  const rows = cases
    .filter(({ hand }) => isTeaching(hand))
    .map(({ query, trees }) => ({
      features: query.features,
      classes: trees.length === 0 ? [classes.length - 1] : trees.flatMap((slug) => numbers.get(slug) ?? []),
      weight: 1,
    }));
  return fitClasses([...rows, ...textRows], classes.length);
}

/** What a case offers to the weights of ranking and of refusal. */
interface Lesson {
  readonly ranking: Choice | undefined;
  /** Undefined where only a tree that is not written yet would fit: refused or called near, either is true. */
  readonly refusal: Choice | undefined;
}

/** The search as it is with these linear weights, not yet quantised. */
function withLinear(school: School): OpenSearch {
  const { search, classes } = school;
  const slugs = search.index.trees.map(({ slug }) => slug);
  return {
    ...search,
    model: openModel({ classes, scale: 1, weights: { gaps: [], levels: [] }, ranking: [], refusal: [] }, slugs),
  };
}

function makeLesson(search: OpenSearch, { query, byConcept, trees }: Case, weights: Float32Array): Lesson {
  const scores = new Float64Array(search.model.classes.length);
  addScores(weights, query.features, scores);
  const { candidates, features, refusal } = gatherEvidence(search, query, scores, byConcept);
  const wanted = candidates.flatMap(({ tree }, at) =>
    trees.includes(search.index.trees[tree]?.slug ?? '') ? [at] : [],
  );
  return {
    ranking: wanted.length === 0 ? undefined : { alternatives: features, wanted },
    refusal:
      trees.length > 0 && wanted.length === 0
        ? undefined
        : { alternatives: [refusal, refusal.map(() => 0)], wanted: [trees.length === 0 ? 0 : 1] },
  };
}

export const handsOf = (cases: readonly TaughtQuery[]): readonly string[] =>
  [...new Set(cases.map(({ hand }) => hand))].filter((hand) => hand !== 'own').sort();

/**
 * Teaches a model from all hands but `without`. The weights of ranking and refusal are fitted on what linear weights say of a hand that
 * they never saw, so that they learn how far strangers can be trusted.
 */
export function teachModel(school: School, without?: string, fits = new Map<string, Float32Array>()): TaughtModel {
  const open = withLinear(school);
  const hands = handsOf(school.cases).filter((hand) => hand !== without);
  const fitWithout = (...left: readonly (string | undefined)[]): Float32Array => {
    const key = left
      .filter((hand) => hand !== undefined)
      .sort()
      .join(' ');
    const known = fits.get(key);
    if (known !== undefined) return known;
    const fit = fitLinear(school, (hand) => !left.includes(hand));
    fits.set(key, fit);
    return fit;
  };
  const lessons = hands.flatMap((hand) => {
    const weights = fitWithout(without, hand);
    return school.cases.filter((each) => each.hand === hand).map((each) => makeLesson(open, each, weights));
  });
  const weights = fitWithout(without);
  const scale = chooseScale(weights);
  return {
    classes: school.classes,
    scale,
    weights: packWeights(weights, school.classes.length, scale),
    ranking: fitChoices(lessons.flatMap(({ ranking }) => ranking ?? [])).map(round),
    refusal: fitChoices(balance(lessons.flatMap(({ refusal }) => refusal ?? []))).map(round),
  };
}

/** Weighs both answers of a yes-or-no question alike, however often each was asked: nobody knows how often people ask for what is not ours. */
function balance(choices: readonly Choice[]): readonly Choice[] {
  const yes = choices.filter(({ wanted }) => wanted.includes(0)).length;
  const weightOf = ({ wanted }: Choice): number =>
    choices.length / 2 / (wanted.includes(0) ? yes : choices.length - yes);
  return choices.map((choice) => ({ ...choice, weight: weightOf(choice) }));
}

/** Levels wide enough that one weight in a thousand is cut. */
function chooseScale(weights: Float32Array): number {
  const sizes = weights
    .map(Math.abs)
    .filter((size) => size > 1e-3)
    .sort();
  return round((sizes[Math.floor(sizes.length * 0.999)] ?? 1) / mostLevel);
}

function round(value: number): number {
  return Math.round(value * 1e4) / 1e4;
}

/**
 * The search index with a taught model. Trees that the model does not know learn here, each by itself: its own words against those of
 * the trees that are known and of what is not ours.
 */
export function buildTaughtIndex(library: Library, model: TaughtModel): SearchIndex {
  const index = buildSearchIndex(library, model);
  const known = new Set(model.classes);
  const untaught = [...library.trees.values()].filter(({ slug }) => !known.has(slug));
  if (untaught.length === 0) return index;
  const search = openSearch(index);
  const makeRow = (text: string, weight: number, isOwn: boolean) => {
    const { features } = readQuery(search, text, false);
    const scores = scoreClasses(search.model, features);
    const most = Math.max(...scores);
    const others = most + Math.log(scores.reduce((sum, score) => sum + Math.exp(score - most), 0));
    return { features, isOwn, weight, others };
  };
  const foreign = [
    ...[...library.trees.values()]
      .filter(({ slug }) => known.has(slug))
      .flatMap((tree) =>
        listTexts(tree)
          .filter(([, weight]) => weight === 1)
          .map(([text]) => makeRow(text, 1, false)),
      ),
    ...[...library.nextDoor.values()].map(({ title }) => makeRow(title, 1, false)),
  ];
  const rows = untaught.map((tree) => {
    const own = listTexts(tree).map(([text, weight]) => makeRow(text, weight, true));
    return packWeights(fitOneClass([...own, ...foreign]), 1, model.scale);
  });
  return {
    ...index,
    model: {
      ...model,
      classes: [...model.classes, ...untaught.map(({ slug }) => slug)],
      weights: {
        gaps: [...model.weights.gaps, ...rows.flatMap(({ gaps }) => gaps)],
        levels: [...model.weights.levels, ...rows.flatMap(({ levels }) => levels)],
      },
    },
  };
}

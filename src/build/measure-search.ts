import type { Library } from '#core/model/library.ts';
import { makeCorrector } from '#core/search/correct-words.ts';
import { findTrees } from '#core/search/find-trees.ts';
import { openSearch } from '#core/search/open-search.ts';
import { searchCorrected } from '#core/search/search-session.ts';
import { openModel, packWeights, type TaughtModel } from '#core/search/taught-model.ts';
import { buildTaughtIndex, type Case, fitLinear, openSchool, type School, type TaughtQuery } from './teach-search.ts';

/** How a search did on one hand's queries, or on all. */
export interface HandFigures {
  readonly hand: string;
  /** Queries that a written tree answers; how often it came first, and among three. */
  readonly asked: number;
  readonly first: number;
  readonly three: number;
  /** Queries about nothing of ours, and how many were refused. */
  readonly foreign: number;
  readonly refused: number;
  /** Queries that only a tree which is not written yet would answer, how many were refused, and how many were called a weak fit. */
  readonly unwritten: number;
  readonly unwrittenRefused: number;
  readonly unwrittenWeak: number;
}

/** What a search gives: trees, best first, and whether it calls them a weak fit. */
export type Answer = (each: Case) => { readonly trees: readonly string[]; readonly isWeak: boolean };

/** The figures of a search on one hand's queries. */
export function judgeHand(school: School, hand: string, answer: Answer): HandFigures {
  const counts = { ...none };
  const written = new Set(school.search.index.trees.map(({ slug }) => slug));
  for (const each of school.cases.filter((other) => other.hand === hand)) {
    const wanted = each.trees.filter((slug) => written.has(slug));
    const { trees, isWeak } = answer(each);
    if (each.trees.length === 0) {
      counts.foreign += 1;
      if (trees.length === 0) counts.refused += 1;
    } else if (wanted.length === 0) {
      counts.unwritten += 1;
      if (trees.length === 0) counts.unwrittenRefused += 1;
      else if (isWeak) counts.unwrittenWeak += 1;
    } else {
      counts.asked += 1;
      if (wanted.includes(trees[0] ?? '')) counts.first += 1;
      if (trees.slice(0, 3).some((slug) => wanted.includes(slug))) counts.three += 1;
    }
  }
  return { hand, ...counts };
}

/** Answers by the whole search, with a model that may not have seen the hand that it answers. */
export function answerBy(school: School, model: TaughtModel): Answer {
  const slugs = school.search.index.trees.map(({ slug }) => slug);
  const search = { ...school.search, model: openModel(model, slugs) };
  return ({ text }) => {
    const { results, isWeak } = findTrees(search, text);
    return { trees: results.map(({ tree }) => tree), isWeak };
  };
}

/**
 * How trees are found that nobody has asked for yet: a third of the trees at a time is taken out of the teaching, with every query that
 * they answer, and learns from its own words alone. Ranking and refusal are weighed as in `model`.
 */
export function measureNewTrees(library: Library, queries: readonly TaughtQuery[], model: TaughtModel): HandFigures {
  const slugs = [...library.trees.keys()];
  const parts = [0, 1, 2].map((rest) => {
    const isNew = (slug: string): boolean => slugs.indexOf(slug) % 3 === rest;
    const old = { ...library, trees: new Map([...library.trees].filter(([slug]) => !isNew(slug))) };
    const known = queries.filter(({ trees }) => !trees.some(isNew));
    const school = openSchool(old, known);
    const weights = fitLinear(school, () => true);
    const rows = packWeights(weights, school.classes.length, model.scale);
    const index = buildTaughtIndex(library, { ...model, classes: school.classes, weights: rows });
    const search = openSearch(index);
    const corrector = makeCorrector(search.byUse);
    const asked = queries.filter(({ trees: [best = ''], hand }) => hand !== 'own' && isNew(best));
    let first = 0;
    let three = 0;
    for (const { text, trees } of asked) {
      const found = searchCorrected(search, corrector, text).results.map(({ tree }) => tree);
      if (trees.includes(found[0] ?? '')) first += 1;
      if (found.slice(0, 3).some((slug) => trees.includes(slug))) three += 1;
    }
    return { ...none, hand: 'new', asked: asked.length, first, three };
  });
  return withSum(parts).at(-1) ?? { ...none, hand: 'new' };
}

const none = {
  asked: 0,
  first: 0,
  three: 0,
  foreign: 0,
  refused: 0,
  unwritten: 0,
  unwrittenRefused: 0,
  unwrittenWeak: 0,
};

/** The rows with one more: their sum, as `all`. */
export function withSum(rows: readonly HandFigures[]): readonly HandFigures[] {
  const [first] = rows;
  if (first === undefined) return rows;
  return [
    ...rows,
    rows.slice(1).reduce(
      (sum, row): HandFigures => ({
        hand: 'all',
        asked: sum.asked + row.asked,
        first: sum.first + row.first,
        three: sum.three + row.three,
        foreign: sum.foreign + row.foreign,
        refused: sum.refused + row.refused,
        unwritten: sum.unwritten + row.unwritten,
        unwrittenRefused: sum.unwrittenRefused + row.unwrittenRefused,
        unwrittenWeak: sum.unwrittenWeak + row.unwrittenWeak,
      }),
      { ...first, hand: 'all' },
    ),
  ];
}

/** The figures as a table for a terminal. */
export function printHands(rows: readonly HandFigures[]): string {
  const part = (count: number, of: number): string =>
    (of === 0 ? '-' : `${((100 * count) / of).toFixed(1)} % (${count}/${of})`).padEnd(17);
  return [
    'hand  first            among three      nothing fits     tree not written: refused, or weak',
    ...rows.map(
      (row) =>
        `${row.hand.padEnd(6)}${part(row.first, row.asked)}${part(row.three, row.asked)}${part(row.refused, row.foreign)}${part(row.unwrittenRefused, row.unwritten)}${part(row.unwrittenWeak, row.unwritten)}`,
    ),
  ].join('\n');
}

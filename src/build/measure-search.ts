import { findTrees } from '#core/search/find-trees.ts';
import { openModel, type TaughtModel } from '#core/search/taught-model.ts';
import { type Case, handsOf, type School, teachModel } from './teach-search.ts';

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
  const counts = {
    asked: 0,
    first: 0,
    three: 0,
    foreign: 0,
    refused: 0,
    unwritten: 0,
    unwrittenRefused: 0,
    unwrittenWeak: 0,
  };
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

/** Each hand's queries answered by a model that was taught without that hand, then the sum. */
export function measureHands(school: School, fits: Map<string, Float32Array>): readonly HandFigures[] {
  return withSum(
    handsOf(school.cases).map((hand) => judgeHand(school, hand, answerBy(school, teachModel(school, hand, fits)))),
  );
}

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

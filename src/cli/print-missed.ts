import { buildIndex } from '#build/search-index.ts';
import type { TaughtQuery } from '#build/teach-search.ts';
import type { Library } from '#core/model/library.ts';
import { makeCorrector } from '#core/search/correct-words.ts';
import { openSearch } from '#core/search/open-search.ts';
import { searchCorrected } from '#core/search/search-session.ts';

/** Which of the queries that a tree is the best answer to do not find it first, and what they find instead: for its author. */
export function printMissed(slug: string, library: Library, queries: readonly TaughtQuery[]): string {
  const search = openSearch(buildIndex(library));
  const corrector = makeCorrector(search.byUse);
  const wanted = queries.filter(({ trees }) => trees[0] === slug);
  if (wanted.length === 0)
    return 'content/queries.tsv has no query for this tree yet: its own words are all that finds it.';
  const missed = wanted.flatMap(({ text, trees }) => {
    const found = searchCorrected(search, corrector, text).results.map(({ tree }) => tree);
    const [first] = found;
    if (first !== undefined && trees.includes(first)) return [];
    const place = found.indexOf(slug) + 1;
    const instead =
      first === undefined ? 'nothing fits' : `${first} is first${place === 0 ? '' : `, this is number ${place}`}`;
    return [`  "${text}": ${instead}`];
  });
  return [
    `Queries of strangers that should find it: ${wanted.length}; it is not first for ${missed.length}${missed.length === 0 ? '.' : ':'}`,
    ...missed,
    ...(missed.length === 0 ? [] : ['A symptom phrase in such words helps most.']),
  ].join('\n');
}

import { findTrees, type SearchAnswer, type SearchOptions } from './find-trees.ts';
import type { OpenSearch } from './open-search.ts';
import type { WordCorrector } from './correct-words.ts';

/** Searches, and where words are unknown asks the corrector, remembers what it says and searches again. */
export function searchCorrected(
  search: OpenSearch,
  corrector: WordCorrector,
  text: string,
  options: SearchOptions = {},
): SearchAnswer {
  const answer = findTrees(search, text, options);
  if (answer.unread.length === 0) return answer;
  for (const stem of answer.unread) search.corrections.set(stem, corrector(stem));
  return findTrees(search, text, options);
}

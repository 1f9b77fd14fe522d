import type { Library } from '#core/model/library.ts';
import type { SearchIndex } from '#core/search/search-index.ts';
import model from './search-model.json' with { type: 'json' };
import { buildTaughtIndex } from './teach-search.ts';

/** The search index of a library with what `npm run teach` learned last. */
export function buildIndex(library: Library): SearchIndex {
  const { classes, scale, weights, ranking, refusal } = model;
  return buildTaughtIndex(library, { classes, scale, weights, ranking, refusal });
}

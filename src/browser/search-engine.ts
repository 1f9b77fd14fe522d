import { findTrees, type SearchAnswer, type SearchOptions } from '#core/search/find-trees.ts';
import { type OpenSearch, openSearch, symptomsOf } from '#core/search/open-search.ts';
import type { SearchIndex } from '#core/search/search-index.ts';
import { fetchOnce } from './kit/fetch-once.ts';
import { trustScript } from './kit/trusted.ts';
import type { CorrectedWords, WordsToCorrect } from './search-worker.ts';
import workerAddress from './search-worker.ts?worker&url';

/** The search of a page: answers at once, and has misspelt words looked up beside. */
export interface SearchEngine {
  readonly find: (text: string, options: SearchOptions) => SearchAnswer;
  /** Looks up words that an answer left unread; true where at least one of them is known now. */
  readonly correct: (unread: readonly string[]) => Promise<boolean>;
}

/** Fetches the index and opens it; undefined if that fails. Our own build wrote it: a parsed boundary. */
export function loadSearchEngine(address: string): Promise<SearchEngine | undefined> {
  return fetchOnce(address, (value) => makeSearchEngine(openSearch(value as SearchIndex)));
}

function makeSearchEngine(search: OpenSearch): SearchEngine {
  readAhead(search);
  const lookUp = makeLookUp(search.byUse);
  return {
    find: (text, options) => findTrees(search, text, options),
    correct: async (unread) => {
      const found = await lookUp(unread);
      for (const [stem, correction] of found) search.corrections.set(stem, correction);
      return found.some(([, correction]) => correction !== undefined);
    },
  };
}

/** Reads the trees' symptom phrases while the browser has nothing to do, so that no keystroke waits for them. */
function readAhead(search: OpenSearch, from = 0): void {
  if (typeof requestIdleCallback !== 'function' || from >= search.index.trees.length) return;
  requestIdleCallback((deadline) => {
    let tree = from;
    while (tree < search.index.trees.length && deadline.timeRemaining() > 3) {
      symptomsOf(search, tree);
      tree += 1;
    }
    readAhead(search, tree);
  });
}

/** Looks words up in a worker; in the page itself, between two tasks, if there is no worker. */
function makeLookUp(vocabulary: readonly string[]): (unread: readonly string[]) => Promise<CorrectedWords> {
  const waiting: ((found: CorrectedWords) => void)[] = [];
  let worker: Worker | undefined;
  try {
    worker = new Worker(trustScript(workerAddress), { type: 'module' });
    worker.addEventListener('error', () => {
      worker = undefined;
      for (const resolve of waiting.splice(0)) resolve([]);
    });
    // It answers in the order it was asked.
    worker.addEventListener('message', ({ data }: MessageEvent<CorrectedWords>) => waiting.shift()?.(data));
    worker.postMessage({ vocabulary } satisfies WordsToCorrect);
  } catch {
    worker = undefined;
  }
  return async (unread) => {
    if (worker !== undefined) {
      worker.postMessage({ unread } satisfies WordsToCorrect);
      return new Promise((resolve) => waiting.push(resolve));
    }
    const { makeCorrector } = await import('#core/search/correct-words.ts');
    const corrector = makeCorrector(vocabulary);
    return unread.map((stem) => [stem, corrector(stem)] as const);
  };
}

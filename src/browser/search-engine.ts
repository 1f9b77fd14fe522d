import { findTrees, type SearchAnswer, type SearchOptions } from '#core/search/find-trees.ts';
import { type OpenSearch, openSearch, symptomsOf } from '#core/search/open-search.ts';
import type { SearchIndex } from '#core/search/search-index.ts';
import { fetchOnce } from './kit/fetch-once.ts';
import type { CorrectedWords, WordsToCorrect } from './search-worker.ts';

/** The search of a page: answers at once, and has misspelt words looked up beside. */
export interface SearchEngine {
  readonly find: (text: string, options: SearchOptions) => SearchAnswer;
  /** Looks up words that an answer left unread; true where at least one of them is known now. */
  readonly correct: (unread: readonly string[]) => Promise<boolean>;
}

/** Fetches the index and opens it. Undefined where it cannot be had. Our own build wrote it: a parsed boundary. */
export function loadSearchEngine(address: string): Promise<SearchEngine | undefined> {
  return fetchOnce(address, (value) => makeSearchEngine(openSearch(value as SearchIndex)));
}

export function makeSearchEngine(search: OpenSearch): SearchEngine {
  readAhead(search);
  const lookUp = makeLookUp(search.vocabulary);
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

/** Looks words up in a worker; in the page itself, between two tasks, where there is no worker. */
function makeLookUp(vocabulary: readonly string[]): (unread: readonly string[]) => Promise<CorrectedWords> {
  let worker: Worker | undefined;
  const waiting = new Map<number, (found: CorrectedWords) => void>();
  let count = 0;
  const lookUpHere = async (unread: readonly string[]): Promise<CorrectedWords> => {
    const { makeCorrector } = await import('#core/search/correct-words.ts');
    const corrector = makeCorrector(vocabulary);
    return unread.map((stem) => [stem, corrector(stem)] as const);
  };
  try {
    worker = new Worker(new URL('./search-worker.ts', import.meta.url), { type: 'module' });
    const fallBack = (): void => {
      worker = undefined;
      for (const resolve of waiting.values()) resolve([]);
      waiting.clear();
    };
    worker.addEventListener('error', fallBack);
    worker.addEventListener(
      'message',
      (event: MessageEvent<{ readonly number: number; readonly found: CorrectedWords }>) => {
        waiting.get(event.data.number)?.(event.data.found);
        waiting.delete(event.data.number);
      },
    );
    worker.postMessage({ vocabulary } satisfies WordsToCorrect);
  } catch {
    worker = undefined;
  }
  return (unread) => {
    const helper = worker;
    if (helper === undefined) return lookUpHere(unread);
    count += 1;
    const number = count;
    return new Promise((resolve) => {
      waiting.set(number, resolve);
      helper.postMessage({ number, unread } satisfies WordsToCorrect);
    });
  };
}

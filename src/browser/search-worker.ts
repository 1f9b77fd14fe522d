import { makeCorrector, type WordCorrector } from '#core/search/correct-words.ts';
import type { Correction } from '#core/search/read-phrase.ts';

/** What the page sends: first the vocabulary, then words. */
export type WordsToCorrect = { readonly vocabulary: readonly string[] } | { readonly unread: readonly string[] };

/** What comes back for each word. */
export type CorrectedWords = readonly (readonly [stem: string, correction: Correction | undefined])[];

let corrector: WordCorrector | undefined;

// The fuzzy pass over a large vocabulary takes longer than a keystroke may: it is done here, beside the page.
addEventListener('message', (event: MessageEvent<WordsToCorrect>) => {
  const { data } = event;
  if ('vocabulary' in data) {
    corrector = makeCorrector(data.vocabulary);
    return;
  }
  postMessage(data.unread.map((stem) => [stem, corrector?.(stem)] as const) satisfies CorrectedWords);
});

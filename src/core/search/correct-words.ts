import Fuse from 'fuse.js/basic';
import type { Correction } from './read-phrase.ts';

/** Finds what misspelt words are meant to be, over one vocabulary. */
export type WordCorrector = (stem: string) => Correction | undefined;

const furthest = 0.5;

/**
 * A corrector over a vocabulary of stems, the most used first. fuse.js proposes; of its proposals the nearest by edit distance is taken,
 * of those alike the most used, and only if it is near enough to be meant: one slip in a word of four or five letters, two from eight (from six where only vowels slipped),
 * three from twelve. Cost: one fuse.js search a word, so callers remember what they got.
 */
export function makeCorrector(vocabulary: readonly string[]): WordCorrector {
  const words = vocabulary.filter((word) => word.length >= 3 && !/\d/.test(word));
  const fuse = new Fuse(words, {
    threshold: furthest,
    includeScore: true,
    ignoreLocation: true,
    minMatchCharLength: 2,
  });
  return (stem) => {
    const slips = allowedSlips(stem);
    if (slips === 0) return undefined;
    let best: { word: string; distance: number; place: number } | undefined;
    for (const { item, refIndex: place } of fuse.search(stem.slice(0, 24), { limit: 40 })) {
      if (Math.abs(item.length - stem.length) > slips) continue;
      const distance = countSlips(stem, item) + (item[0] === stem[0] ? 0 : 0.5);
      if (distance > slips || (distance > 1 && stem.length < 8 && skeletonOf(stem) !== skeletonOf(item))) continue;
      if (best === undefined || distance < best.distance || (distance === best.distance && place < best.place)) {
        best = { word: item, distance, place };
      }
    }
    if (best === undefined) return undefined;
    return { stem: best.word, surety: best.distance <= 1 ? 0.85 : 0.7 };
  };
}

/** A word's consonants, doubled ones once: what is left of it when only vowels slipped. */
function skeletonOf(word: string): string {
  return word.replaceAll(/[aeiouy]/g, '').replaceAll(/(.)\1+/g, '$1');
}

/** How many slips of the fingers a word may hold and still be recognised. Our judgement. */
function allowedSlips(stem: string): number {
  if (stem.length < 4 || /\d/.test(stem)) return 0;
  if (stem.length < 6) return 1;
  return stem.length < 12 ? 2 : 3;
}

/**
 * Slips between two words: letters left out, put in, changed, or two neighbours swapped (optimal string alignment,
 * Damerau 1964). Cost O(a·b).
 */
export function countSlips(a: string, b: string): number {
  let beforeLast: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, column) => column);
  for (let row = 1; row <= a.length; row += 1) {
    const current = [row];
    for (let column = 1; column <= b.length; column += 1) {
      const change = (last[column - 1] ?? 0) + (a[row - 1] === b[column - 1] ? 0 : 1);
      let least = Math.min(change, (last[column] ?? 0) + 1, (current[column - 1] ?? 0) + 1);
      if (row > 1 && column > 1 && a[row - 1] === b[column - 2] && a[row - 2] === b[column - 1]) {
        least = Math.min(least, (beforeLast[column - 2] ?? 0) + 1);
      }
      current.push(least);
    }
    beforeLast = last;
    last = current;
  }
  return last[b.length] ?? 0;
}

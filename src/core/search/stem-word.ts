/** Words whose ending is part of the word. */
const whole = new Set([
  'supply',
  'apply',
  'reply',
  'only',
  'during',
  'string',
  'ring',
  'rings',
  'bus',
  'always',
  'less',
  'this',
  'his',
  'was',
  'has',
  'its',
  'does',
  'wiring',
  'spring',
  'led',
]);

/**
 * A word without its grammatical ending, so that `blows`, `blowing` and `blow` are one. Small letters in, small letters
 * out; words with digits and words of three letters stay. A light form of the suffix stripping of Porter 1980.
 * @example stemWord('humming') === 'hum'
 */
export function stemWord(word: string): string {
  if (word.length <= 3 || whole.has(word) || /\d/.test(word)) return word;
  return dropFinalE(dropEnding(word));
}

function dropEnding(word: string): string {
  if (word.endsWith('ies') && word.length > 4) return `${word.slice(0, -3)}y`;
  if (word.endsWith('ied') && word.length > 4) return `${word.slice(0, -3)}y`;
  if (/(?:ss|x|ch|sh|zz)es$/.test(word)) return word.slice(0, -2);
  if (/[^suia]s$/.test(word)) return dropEnding(word.slice(0, -1));
  if (word.endsWith('ing') && word.length > 5) return mendStem(word, word.slice(0, -3));
  if (word.endsWith('ed') && !word.endsWith('eed') && word.length > 4) return mendStem(word, word.slice(0, -2));
  if (word.endsWith('ly') && word.length > 5 && !word.endsWith('pply')) return word.slice(0, -2);
  return word;
}

function mendStem(word: string, stem: string): string {
  if (stem.length < 3 || !/[aeiouy]/.test(stem)) return word;
  if (/([bcdfgkmnprtv])\1$/.test(stem)) return stem.slice(0, -1);
  return stem.length === 3 && /[aeiouy][bcdfgklmnprstv]$/.test(stem) ? `${stem}e` : stem;
}

function dropFinalE(word: string): string {
  return word.length > 4 && word.endsWith('e') ? word.slice(0, -1) : word;
}

/** Width of a text in the graph's font, in pixels, at a font size in pixels. */
export type MeasureText = (text: string, sizePixels: number) => number;

/**
 * Breaks a label into the fewest lines of at most `limitPixels`, then evens them out so that the widest is as narrow as
 * that number of lines allows. Breaks at spaces, after hyphens and slashes, and inside a word only where the word alone
 * is too wide. An empty label gives one empty line.
 *
 * @example wrapLabel('Is the tone there?', 110, (text) => measure(text, 15)) // ['Is the tone', 'there?']
 */
export function wrapLabel(label: string, limitPixels: number, measure: (text: string) => number): readonly string[] {
  const pieces = splitIntoPieces(label, limitPixels, measure);
  const fewest = fillLines(pieces, () => limitPixels, measure);
  let narrow = 0;
  let wide = limitPixels;
  let best = fewest;
  while (wide - narrow > 1) {
    const middle = (narrow + wide) / 2;
    const lines = fillLines(pieces, () => middle, measure);
    const fits = lines.length <= fewest.length && lines.every((line) => measure(line) <= middle);
    if (fits) [wide, best] = [middle, lines];
    else narrow = middle;
  }
  return best;
}

/** A stretch of text that stays on one line. */
export interface Piece {
  readonly text: string;
  readonly hasSpaceBefore: boolean;
}

/** Fills lines from the top, each up to its own capacity in pixels; a piece wider than its line stands alone in it. */
export function fillLines(
  pieces: readonly Piece[],
  capacityOfLine: (line: number) => number,
  measure: (text: string) => number,
): readonly string[] {
  const lines: string[] = [];
  let line = '';
  for (const piece of pieces) {
    const longer = line === '' ? piece.text : `${line}${piece.hasSpaceBefore ? ' ' : ''}${piece.text}`;
    if (line !== '' && measure(longer) > capacityOfLine(lines.length)) {
      lines.push(line);
      line = piece.text;
    } else {
      line = longer;
    }
  }
  return [...lines, line];
}

/** Cuts a label where a line may end; a word wider than `limitPixels` is cut into parts that fit. */
export function splitIntoPieces(
  label: string,
  limitPixels: number,
  measure: (text: string) => number,
): readonly Piece[] {
  return tidyLabel(label)
    .split(' ')
    .flatMap((word) =>
      (word.match(/[^-/]*[-/]+|[^-/]+/gu) ?? [])
        .flatMap((part) => cutWord(part, limitPixels, measure))
        .map((text, place) => ({ text, hasSpaceBefore: place === 0 })),
    );
}

/** One line of text that any XML reader accepts: control characters and runs of space become one space. */
export function tidyLabel(label: string): string {
  return (
    label
      .toWellFormed()
      // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is taken out
      .replace(/[\s\u0000-\u001f\u007f-\u009f\ufffe\uffff]+/gu, ' ')
      .trim()
  );
}

function cutWord(word: string, limitPixels: number, measure: (text: string) => number): readonly string[] {
  if (measure(word) <= limitPixels) return [word];
  const parts: string[] = [];
  let part = '';
  for (const { segment } of new Intl.Segmenter('en', { granularity: 'grapheme' }).segment(word)) {
    if (part !== '' && measure(part + segment) > limitPixels) {
      parts.push(part);
      part = '';
    }
    part += segment;
  }
  return part === '' ? parts : [...parts, part];
}

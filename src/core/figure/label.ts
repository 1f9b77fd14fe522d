/** Width of a text in the graph's font, in pixels, at a font size in pixels. */
export type MeasureText = (text: string, sizePixels: number) => number;

/** Type on the sheet, in pixels. */
export const nodeType = { size: 15, line: 17 } as const;
export const edgeType = { size: 13, line: 15 } as const;

/** Width that edge labels wrap at, in pixels of the shipped font: about fourteen letters. */
const edgeLabelWidth = 76;

/** Lines of text with the size of the gap that they leave in a line, in pixels. */
export interface Label {
  readonly width: number;
  readonly height: number;
  readonly lines: readonly string[];
}

/** An edge's label in lines, with the size of the gap that it leaves in its line, in even whole pixels across. */
export function measureLabel(label: string, measure: MeasureText): Label {
  const lines = wrapLabel(label, edgeLabelWidth, (text) => measure(text, edgeType.size));
  const widest = Math.max(...lines.map((line) => measure(line, edgeType.size)));
  return { lines, width: 2 * Math.ceil(widest / 2 + 3), height: lines.length * edgeType.line + 3 };
}

/** Height of the middle of a line over (negative) or under the middle of the label, in pixels. */
export function offsetOfLine(line: number, count: number, lineHeight: number): number {
  return (line - (count - 1) / 2) * lineHeight;
}

/** Width of a letter that the shipped font lacks, in em: no fallback font draws one wider. */
export const widthOfMissingLetter = 1.4;

/**
 * Measures text by the width of each letter, in em, where the font's file is not at hand. Kerning, which draws letters
 * together, is left out: text is never wider than it was taken to be. Widths are remembered.
 */
export function measureByLetters(letterWidths: Readonly<Record<string, number>>): MeasureText {
  const letters = new Map(Object.entries(letterWidths));
  const widths = new Map<string, number>();
  return (text, sizePixels) => {
    const known = widths.get(text);
    if (known !== undefined) return known * sizePixels;
    let em = 0;
    for (const letter of text) em += letters.get(letter) ?? widthOfMissingLetter;
    widths.set(text, em);
    return em * sizePixels;
  };
}

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
      (word.match(/[^-/]+[-/]*|[-/]+/gu) ?? [])
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

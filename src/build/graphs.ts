import { readFileSync } from 'node:fs';
import { create } from 'fontkit';
import { type MeasureText, widthOfMissingLetter } from '#core/figure/label.ts';
import { nameGraph } from '#core/figure/lay-out.ts';
import { drawSheet } from '#core/figure/sheet.ts';
import type { FaultTree } from '#core/model/fault-tree.ts';
import { layOut, sheetsOf } from './layouts.ts';
import { loadLibrary } from './library.ts';

/** Where the shipped font lies, from the root of the project. */
export const sheetFontFile = 'public/fonts/barlow-condensed-600.woff2';

/** The whole decision graph of a tree as SVG: for a wide screen and paper, and 358 pixels wide for a phone. */
export async function drawGraph(
  tree: FaultTree,
  findAddress: (node: string) => string,
): Promise<{ readonly wide: string; readonly ladder: string }> {
  layOut([...loadLibrary().trees.values()]);
  const { wide, ladder } = await sheetsOf(tree);
  const name = nameGraph(tree);
  return {
    wide: drawSheet(wide, { name, idPrefix: 'whole', findAddress }),
    ladder: drawSheet(ladder, { name, idPrefix: 'ladder', findAddress, saysHere: true }),
  };
}

/**
 * Reads a font and returns the function that measures text in it, kerning included, in pixels. A letter that the font
 * lacks (an emoji, another script) counts 1.4 em, since no one knows which font the reader's device takes instead.
 * Results are remembered, so that a site of trees measures each phrase once.
 */
export function createMeasureText(fontFile: string): MeasureText {
  const font = create(readFileSync(fontFile));
  const widths = new Map<string, number>();
  const measureEm = (text: string): number => {
    let known = '';
    let missing = 0;
    for (const letter of text) {
      if (font.hasGlyphForCodePoint(letter.codePointAt(0) ?? 0)) known += letter;
      else missing += 1;
    }
    return font.layout(known).advanceWidth / font.unitsPerEm + missing * widthOfMissingLetter;
  };
  return (text, sizePixels) => {
    const width = widths.get(text) ?? measureEm(text);
    widths.set(text, width);
    return width * sizePixels;
  };
}

/** Width of every letter that the font has, in em, for a page that measures text without the font's file. */
export function listLetterWidths(fontFile: string): Readonly<Record<string, number>> {
  const font = create(readFileSync(fontFile));
  const basicPlane = Array.from({ length: 0xd7ff - 0x20 }, (_, index) => index + 0x20);
  return Object.fromEntries(
    basicPlane
      .filter((code) => font.hasGlyphForCodePoint(code))
      .map((code) => {
        const letter = String.fromCodePoint(code);
        return [letter, Math.round((1000 * font.layout(letter).advanceWidth) / font.unitsPerEm) / 1000];
      }),
  );
}

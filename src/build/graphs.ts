import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { create } from 'fontkit';
import { buildDecisionGraph } from '#core/figure/decision-graph.ts';
import { type MeasureText, widthOfMissingLetter } from '#core/figure/label.ts';
import { arrangeLadder } from '#core/figure/ladder.ts';
import { layOutSheet, nameGraph } from '#core/figure/lay-out.ts';
import { drawSheet, type Sheet } from '#core/figure/sheet.ts';
import type { FaultTree } from '#core/model/fault-tree.ts';
import { loadLibrary } from './library.ts';

/** Where the shipped font lies, from the root of the project. */
export const sheetFontFile = 'public/fonts/barlow-condensed-600.woff2';

type FindAddress = (node: string) => string;

const measure = createMeasureText(sheetFontFile);

/** The whole decision graph of a tree as SVG, for a wide screen and for paper. */
export async function drawWide(tree: FaultTree, findAddress: FindAddress): Promise<string> {
  if (!laidOut.has(tree)) layOutAll();
  const sheet = (await laidOut.get(tree)) ?? layOutSheet(buildDecisionGraph(tree), measure);
  return drawSheet(sheet, { name: nameGraph(tree), idPrefix: 'whole', findAddress });
}

/** What `layout-worker.ts` tells: the place of a tree in the list that it was given, and the sheet of its graph. */
export interface LaidOut {
  readonly index: number;
  readonly sheet: Sheet;
}

const laidOut = new WeakMap<FaultTree, Promise<Sheet>>();

/** Hands all trees of the library to a worker: it is about as long at laying out as this thread is at rendering pages. */
function layOutAll(): void {
  const trees = [...loadLibrary().trees.values()];
  const worker = new Worker(join(process.cwd(), 'src/build/layout-worker.ts'), { workerData: trees });
  const waiting = trees.map((tree) => {
    const { promise, resolve, reject } = Promise.withResolvers<Sheet>();
    laidOut.set(tree, promise);
    // Read when its page is rendered; until then nobody listens.
    promise.catch(() => undefined);
    return { resolve, reject };
  });
  worker.on('message', ({ index, sheet }: LaidOut) => waiting[index]?.resolve(sheet));
  worker.on('error', (error) => {
    for (const { reject } of waiting) reject(error);
  });
}

/** The whole decision graph of a tree as SVG that runs down a phone's page: 358 pixels wide. */
export function drawLadder(tree: FaultTree, findAddress: FindAddress): string {
  const sheet = arrangeLadder(buildDecisionGraph(tree), measure);
  return drawSheet(sheet, { name: nameGraph(tree), idPrefix: 'ladder', findAddress, saysHere: true });
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

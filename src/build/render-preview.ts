import { Resvg } from '@resvg/resvg-js';
import { create } from 'fontkit';
import { readFileSync } from 'node:fs';
import { crc32, deflateSync } from 'node:zlib';
import { type Pen, type PreviewMatter, drawPreview, type TraceText } from './draw-preview.ts';
import { createMeasureText, sheetFontFile } from './graphs.ts';

let pen: Pen | undefined;

/** A preview as a PNG of 1200 × 630 pixels. */
export function renderPreview(matter: PreviewMatter): Uint8Array<ArrayBuffer> {
  pen ??= { trace: createTraceText(sheetFontFile), measure: createMeasureText(sheetFontFile) };
  const options = { font: { loadSystemFonts: false } };
  return writeIndexedPng(new Resvg(drawPreview(matter, pen), options).render());
}

/**
 * Reads a font and returns the function that draws text in it as SVG paths, kerning included. A picture drawn so needs no font
 * where it is rendered. Letters that the font lacks are left out.
 */
export function createTraceText(fontFile: string): TraceText {
  const font = create(readFileSync(fontFile));
  const outlines = new Map<string, TracedLine>();
  const traceLine = (known: string): TracedLine => {
    const { glyphs, positions } = font.layout(known);
    let pen = 0;
    return glyphs.map(({ path }, index) => {
      const { xAdvance = 0, xOffset = 0 } = positions[index] ?? {};
      const outline = { x: pen + xOffset, path: path.toSVG() };
      pen += xAdvance;
      return outline;
    });
  };
  return (text, { x, y, size }) => {
    const known = [...text].filter((letter) => font.hasGlyphForCodePoint(letter.codePointAt(0) ?? 0)).join('');
    const line = outlines.get(known) ?? traceLine(known);
    outlines.set(known, line);
    const scale = size / font.unitsPerEm;
    const drawn = line.map(({ x: left, path }) => `<path transform="translate(${left} 0)" d="${path}"/>`);
    return `<g transform="translate(${x} ${y}) scale(${scale} ${-scale})">${drawn.join('')}</g>`;
  };
}

/** Outlines of a line's letters in units of the font, each with its place. */
type TracedLine = readonly { readonly x: number; readonly path: string }[];

/** Pixels of a picture, row by row, four bytes each: red, green, blue, and an alpha that is always 255. */
export interface Pixels {
  readonly width: number;
  readonly height: number;
  readonly pixels: Uint8Array;
}

const signature = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];
const mostColours = 256;
/** The sheets have some 300 colours, most of them on the edges of letters: two bits less, and they fit. */
const usuallyDropped = 2;

/**
 * A picture of few colours as a PNG with a palette (PNG specification, third edition, clause 11.2): a third of the size that the same
 * pixels take in true colour. More than 256 colours are drawn together: neighbours that differ in their last bits take the colour of
 * whichever of them comes first.
 */
export function writeIndexedPng(picture: Pixels): Uint8Array<ArrayBuffer> {
  let dropped = usuallyDropped;
  let indexed = indexPixels(picture, dropped);
  while (indexed === undefined) {
    dropped += 1;
    indexed = indexPixels(picture, dropped);
  }
  const header = Buffer.alloc(13);
  header.writeUInt32BE(picture.width, 0);
  header.writeUInt32BE(picture.height, 4);
  // Eight bits, palette, deflate, no adaptive filter, not interlaced.
  header.set([8, 3, 0, 0, 0], 8);
  return new Uint8Array(
    Buffer.concat([
      Buffer.from(signature),
      makeChunk('IHDR', header),
      makeChunk('PLTE', indexed.palette),
      makeChunk('IDAT', deflateSync(indexed.rows, { level: 6 })),
      makeChunk('IEND', Buffer.alloc(0)),
    ]),
  );
}

interface Indexed {
  readonly palette: Buffer;
  /** Each row with its filter byte, 0, in front. */
  readonly rows: Uint8Array;
}

/** The picture as numbers of colours, `dropped` bits of each channel ignored; undefined where that leaves too many. */
function indexPixels({ width, height, pixels }: Pixels, dropped: number): Indexed | undefined {
  const colours = new Uint32Array(pixels.buffer, pixels.byteOffset, width * height);
  const mask = (0x01010101 * ((0xff << dropped) & 0xff)) >>> 0;
  const numbers = new Map<number, number>();
  const palette: number[] = [];
  const rows = new Uint8Array((width + 1) * height);
  let last = -1;
  let number = 0;
  let pixel = 0;
  for (let row = 0; row < height; row += 1) {
    const end = (row + 1) * (width + 1);
    for (let at = end - width; at < end; at += 1, pixel += 1) {
      const colour = colours[pixel] ?? 0;
      if (colour !== last) {
        last = colour;
        const key = colour & mask;
        const known = numbers.get(key);
        if (known !== undefined) number = known;
        else {
          number = numbers.size;
          if (number === mostColours) return undefined;
          numbers.set(key, number);
          palette.push(...pixels.subarray(pixel * 4, pixel * 4 + 3));
        }
      }
      rows[at] = number;
    }
  }
  return { palette: Buffer.from(palette), rows };
}

function makeChunk(name: string, data: Uint8Array): Buffer {
  const chunk = Buffer.alloc(data.length + 12);
  chunk.writeUInt32BE(data.length, 0);
  chunk.write(name, 4, 'latin1');
  chunk.set(data, 8);
  chunk.writeUInt32BE(crc32(chunk.subarray(4, data.length + 8)), data.length + 8);
  return chunk;
}

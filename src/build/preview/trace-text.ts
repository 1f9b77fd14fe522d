import { readFileSync } from 'node:fs';
import { create } from 'fontkit';

/** A line of text as outlines, its baseline starting at x, y; all in pixels. */
export type TraceText = (text: string, at: { readonly x: number; readonly y: number; readonly size: number }) => string;

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

import type { NodeKind } from '../model/fault-tree.ts';
import { fillLines, type MeasureText, type Piece, splitIntoPieces, wrapLabel } from './wrap-label.ts';

/** A flowchart symbol sized to the words inside it. Lengths in pixels. */
export interface FittedSymbol {
  readonly kind: NodeKind;
  readonly width: number;
  readonly height: number;
  /** Lines of the label, from the top, centred on the middle of the symbol (`middle` from its top edge). */
  readonly lines: readonly string[];
  readonly middle: number;
}

/** Type on the sheet, in pixels. */
export const nodeType = { size: 15, line: 17 } as const;
export const edgeType = { size: 13, line: 15 } as const;

/**
 * How far ink may reach above and below the middle of a line of `nodeType`. Barlow Condensed's tallest letters rise
 * 0.74 em over the baseline and fall 0.2 em below it; the baseline lies 0.35 em (half its capitals) below the middle.
 */
const inkAbove = nodeType.size * (0.74 - 0.35);
const inkBelow = nodeType.size * (0.35 + 0.2);
const ink = Math.max(inkAbove, inkBelow);

/** Width of the double bar at the sides of a predefined process. */
export const barWidth = 6;
/** Width of the rim between the two outlines of an end. */
export const rimWidth = 5;
/** Height of the point of an off-page connector. */
export const pointHeight = 16;

/** Width that node labels wrap at, in pixels: about eighteen letters of the shipped font. */
export const nodeLabelWidth = 112;
const padding = 9;

/**
 * Wraps a node's title and sizes its symbol so that every line lies inside the true outline, not only inside its box.
 *
 * A check is a flattened rhombus: the proportion and the lines are chosen together, long lines in the middle, so that a
 * question of 60 letters takes about 210 by 100 pixels where the library's own rhombus takes 250 by 250. Sizes are even
 * whole pixels.
 */
export function fitSymbol(kind: NodeKind, title: string, measure: MeasureText): FittedSymbol {
  const measureLine = (text: string): number => measure(text, nodeType.size);
  if (kind === 'check') return fitRhombus(title, measureLine);
  const lines = wrapLabel(title, nodeLabelWidth, measureLine);
  const widest = Math.max(...lines.map(measureLine));
  const tall = lines.length * nodeType.line;
  switch (kind) {
    case 'path': {
      const height = roundUpToEven(tall + 2 * padding);
      return { kind, lines, height, middle: height / 2, width: roundUpToEven(widest + 2 * (padding + barWidth)) };
    }
    case 'elsewhere': {
      const body = tall + 2 * padding - 4;
      return {
        kind,
        lines,
        height: roundUpToEven(body + pointHeight),
        middle: body / 2,
        width: roundUpToEven(widest + 2 * padding),
      };
    }
    case 'cause':
    case 'hand-over': {
      const height = roundUpToEven(tall + 2 * (rimWidth + 5));
      const width = roundUpToEven(Math.max(widthOfStadium(lines, height, measureLine), height + 24));
      return { kind, lines, height, middle: height / 2, width };
    }
  }
}

/** Height of the middle of a line over (negative) or under the middle of the label, in pixels. */
export function offsetOfLine(line: number, count: number, lineHeight: number): number {
  return (line - (count - 1) / 2) * lineHeight;
}

function roundUpToEven(pixels: number): number {
  return 2 * Math.ceil(pixels / 2);
}

function widthOfStadium(lines: readonly string[], height: number, measureLine: (text: string) => number): number {
  const radius = height / 2 - rimWidth;
  const needed = lines.map((line, place) => {
    const reach = Math.abs(offsetOfLine(place, lines.length, nodeType.line)) + ink;
    const lostToCap = radius - Math.sqrt(Math.max(0, radius ** 2 - reach ** 2));
    return measureLine(line) + 2 * (lostToCap + rimWidth + 4);
  });
  return Math.max(...needed);
}

/** Width to height of the rhombi tried, and the space kept free at both ends of a line. */
const proportions = [1.7, 1.9, 2.1, 2.3, 2.6] as const;
const rhombusPadding = 3;

function fitRhombus(title: string, measureLine: (text: string) => number): FittedSymbol {
  const pieces = splitIntoPieces(title, nodeLabelWidth, measureLine);
  let best = shrinkRhombus(pieces, 1, proportions[0], measureLine);
  for (let count = 1; count <= pieces.length; count += 1) {
    for (const proportion of proportions) {
      const fitted = shrinkRhombus(pieces, count, proportion, measureLine);
      if (best === undefined || (fitted !== undefined && costOf(fitted) < costOf(best))) best = fitted;
    }
  }
  if (best === undefined) throw new Error('A rhombus grows until one line fits.');
  return best;
}

/** Width is dearer than height: a sheet scrolls down more readily than sideways. */
function costOf(symbol: FittedSymbol): number {
  return symbol.width + 0.9 * symbol.height;
}

/** The least rhombus of a proportion that holds the pieces in `count` lines; undefined where they fill fewer lines. */
function shrinkRhombus(
  pieces: readonly Piece[],
  count: number,
  proportion: number,
  measureLine: (text: string) => number,
): FittedSymbol | undefined {
  for (let height = count * nodeType.line + 15; ; height += 2) {
    const even = roundUpToEven(height);
    const width = roundUpToEven(proportion * even);
    const capacity = (line: number): number => {
      const reach = Math.abs(offsetOfLine(line, count, nodeType.line)) + ink;
      return width * (1 - (2 * reach) / even) - 2 * rhombusPadding;
    };
    const lines = fillLines(pieces, capacity, measureLine);
    if (lines.length < count) return undefined;
    if (lines.length === count && lines.every((line, place) => measureLine(line) <= capacity(place))) {
      return { kind: 'check', lines, width, height: even, middle: even / 2 };
    }
  }
}

import type { NodeKind } from '../model/fault-tree.ts';
import {
  fillLines,
  type MeasureText,
  nodeType,
  offsetOfLine,
  type Piece,
  splitIntoPieces,
  wrapLabel,
} from './label.ts';

/** A flowchart symbol sized to the words inside it. Lengths in pixels. */
export interface FittedSymbol {
  readonly kind: NodeKind;
  readonly width: number;
  readonly height: number;
  /** Lines of the label, from the top, centred on the middle of the symbol (`middle` from its top edge). */
  readonly lines: readonly string[];
  readonly middle: number;
}

/**
 * How far ink may reach above and below the middle of a line of `nodeType`. Barlow Condensed's tallest letters rise
 * 0.74 em over the baseline and fall 0.2 em below it; the baseline lies 0.35 em (half its capitals) below the middle.
 */
const inkAbove = nodeType.size * (0.74 - 0.35);
const inkBelow = nodeType.size * (0.35 + 0.2);
const ink = Math.max(inkAbove, inkBelow);

/** Width of the double bar at the sides of a predefined process. */
const barWidth = 6;
/** Width of the rim between the two outlines of an end. */
export const rimWidth = 5;
/** Height of the point of an off-page connector. */
const pointHeight = 16;

/** Width that node labels wrap at, in pixels: about eighteen letters of the shipped font. */
const nodeLabelWidth = 112;
const padding = 9;

/**
 * Wraps a node's title and sizes its symbol so that every line lies inside the true outline, not only inside its box.
 *
 * A check is a flattened rhombus: the proportion and the lines are chosen together, long lines in the middle, so that a
 * question of 60 letters takes about 210 by 100 pixels where the library's own rhombus takes 250 by 250. Sizes are even
 * whole pixels.
 */
export function fitSymbol(kind: NodeKind, title: string, measure: MeasureText): FittedSymbol {
  const known = fitted.get(measure) ?? new Map<string, FittedSymbol>();
  fitted.set(measure, known);
  const key = `${kind} ${title}`;
  const symbol = known.get(key) ?? fitAfresh(kind, title, measure);
  known.set(key, symbol);
  return symbol;
}

/** Each symbol is drawn in the whole graph and beside each of its neighbours: fitted once for a font, 5 ms each. */
const fitted = new WeakMap<MeasureText, Map<string, FittedSymbol>>();

function fitAfresh(kind: NodeKind, title: string, measure: MeasureText): FittedSymbol {
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

/** Halves of what is so wide stand on whole pixels. */
export function roundUpToEven(pixels: number): number {
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

/** The strokes of a symbol as SVG path data, from its top left corner at (left, top), in pixels. */
export interface SymbolOutline {
  /** The closed outline. */
  readonly outer: string;
  /** The second, inner outline of an end: closed. */
  readonly inner: string | undefined;
  /** Lines across the symbol. */
  readonly bars: string | undefined;
}

/**
 * Draws a symbol as ISO 5807 defines it: a check is a decision (rhombus), a path a predefined process (double side
 * bars), a cause and a hand-over are terminators (stadium) with a rim, hatched for a cause and plain for a hand-over.
 * A jump to another tree is the off-page connector that drawing offices use (a box that ends in a point); ISO 5807 has
 * only the circle, which would be as wide as its words. Source: ISO 5807:1985, chapter 9, from memory.
 */
export function outlineSymbol(symbol: FittedSymbol, left: number, top: number): SymbolOutline {
  const { width, height } = symbol;
  switch (symbol.kind) {
    case 'check': {
      const [halfWidth, halfHeight] = [width / 2, height / 2];
      return {
        outer: `M${left + halfWidth} ${top}l${halfWidth} ${halfHeight} ${-halfWidth} ${halfHeight} ${-halfWidth} ${-halfHeight}z`,
        inner: undefined,
        bars: undefined,
      };
    }
    case 'path':
      return {
        outer: `M${left} ${top}h${width}v${height}h${-width}z`,
        inner: undefined,
        bars: `M${left + barWidth} ${top}v${height}M${left + width - barWidth} ${top}v${height}`,
      };
    case 'elsewhere': {
      const side = height - pointHeight;
      return {
        outer: `M${left} ${top}h${width}v${side}l${-width / 2} ${pointHeight} ${-width / 2} ${-pointHeight}z`,
        inner: undefined,
        bars: undefined,
      };
    }
    case 'cause':
    case 'hand-over':
      return {
        outer: outlineStadium(left, top, width, height),
        inner: outlineStadium(left + rimWidth, top + rimWidth, width - 2 * rimWidth, height - 2 * rimWidth),
        bars: undefined,
      };
  }
}

function outlineStadium(left: number, top: number, width: number, height: number): string {
  const radius = height / 2;
  const straight = width - height;
  return `M${left + radius} ${top}h${straight}a${radius} ${radius} 0 0 1 0 ${height}h${-straight}a${radius} ${radius} 0 0 1 0 ${-height}z`;
}

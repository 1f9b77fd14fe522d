import { barWidth, type FittedSymbol, pointHeight, rimWidth } from './fit-symbol.ts';

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

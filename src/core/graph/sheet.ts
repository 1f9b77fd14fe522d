import type { GraphEdge, GraphNode } from './decision-graph.ts';
import type { FittedSymbol } from './fit-symbol.ts';

/** A graph laid out on a sheet: every length a whole number of pixels, the origin at the top left. */
export interface Sheet {
  readonly width: number;
  readonly height: number;
  readonly nodes: readonly PlacedNode[];
  readonly edges: readonly PlacedEdge[];
  /** Dots where a line branches from another or joins it. */
  readonly joints: readonly Point[];
  /** Line and mark that show where the reader starts; undefined where the sheet leaves the start out. */
  readonly startMark: StartMark | undefined;
}

export interface Point {
  readonly x: number;
  readonly y: number;
}

export interface PlacedNode {
  readonly node: GraphNode;
  readonly symbol: FittedSymbol;
  readonly left: number;
  readonly top: number;
}

export interface PlacedEdge {
  readonly edge: GraphEdge;
  /** Corners of the line, from the node it leaves to the node it enters; each stretch is upright or level. */
  readonly points: readonly Point[];
  readonly label: PlacedLabel;
}

/** Lines of an edge's label, centred on (x, y). */
export interface PlacedLabel extends Point {
  readonly width: number;
  readonly height: number;
  readonly lines: readonly string[];
}

export interface StartMark {
  /** Centre of the terminator that says "start". */
  readonly mark: Point;
  readonly points: readonly Point[];
}

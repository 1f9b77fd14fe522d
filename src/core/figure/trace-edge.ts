import type { GraphEdge, GraphNode } from './decision-graph.ts';
import { type Label, measureLabel, type MeasureText } from './label.ts';
import type { Point } from './sheet.ts';
import type { FittedSymbol } from './symbol.ts';

/** A node in its row. */
export interface RowNode {
  readonly node: GraphNode;
  readonly symbol: FittedSymbol;
  readonly x: number;
  readonly row: number;
}

/** An edge as a chain of positions, one in each row it passes, from the upper end down. */
export interface RowEdge {
  readonly edge: GraphEdge;
  readonly upper: RowNode;
  readonly lower: RowNode;
  /** True where the edge runs up the sheet, as only the circles of a draft do. */
  readonly isUpward: boolean;
  readonly firstRow: number;
  readonly positions: readonly number[];
  readonly label: Label;
  /** Row of the label. */
  readonly labelRow: number;
}

/** The rows of a layout, counted from the top. */
export interface Rows {
  readonly count: number;
  readonly of: (y: number) => number;
}

/** A step sideways smaller than this, in pixels, is straightened. */
const smallestStep = 9;

/** Rows of the layout: heights that differ by less than two pixels are one. */
export function findRows(points: readonly Point[]): Rows {
  const all = points.map((point) => point.y).sort((left, right) => left - right);
  const starts = all.filter((y, index) => index === 0 || y - (all[index - 1] ?? y) > 2);
  return { count: starts.length, of: (y) => Math.max(0, starts.filter((start) => start <= y).length - 1) };
}

/** Follows an edge through the rows between its ends, keeping only where it passes each. */
export function traceEdge(
  edge: GraphEdge,
  from: RowNode,
  to: RowNode,
  turns: readonly Point[],
  rows: Rows,
  measure: MeasureText,
): RowEdge {
  const isUpward = from.row > to.row;
  const [upper, lower] = isUpward ? [to, from] : [from, to];
  const atRow = new Map(turns.map((turn) => [rows.of(turn.y), Math.round(turn.x)]));
  const positions = [upper.x];
  for (let row = upper.row + 1; row < lower.row; row += 1)
    positions.push(atRow.get(row) ?? positions.at(-1) ?? upper.x);
  return {
    edge,
    upper,
    lower,
    isUpward,
    firstRow: upper.row,
    positions: straighten([...positions, lower.x]),
    label: measureLabel(edge.label, measure),
    labelRow: Math.floor((upper.row + lower.row) / 2),
  };
}

/** Takes small steps sideways out of the middle of a chain: from the upper end down, then from the lower end up. */
function straighten(positions: readonly number[]): readonly number[] {
  const straight = [...positions];
  const last = straight.length - 1;
  const pull = (place: number, towards: number): void => {
    const [here, there] = [straight[place], straight[towards]];
    if (here !== undefined && there !== undefined && Math.abs(here - there) < smallestStep) straight[place] = there;
  };
  for (let place = last - 1; place > 0; place -= 1) pull(place, place + 1);
  for (let place = 1; place < last; place += 1) {
    if (straight[place] !== straight[last]) pull(place, place - 1);
  }
  return straight;
}

/** Room kept between a label and whatever stands beside it in its row, in pixels. */
const labelClearance = 8;

/**
 * Moves the label of a long line from its middle up to the first row below the symbol that it leaves, where nothing else
 * stands in the way: an answer is read beside its question. Lines that run up the sheet keep their label where it is.
 */
export function raiseLabels(edges: readonly RowEdge[], nodes: readonly RowNode[]): readonly RowEdge[] {
  const placed = [...edges];
  for (const [index, edge] of placed.entries()) {
    if (edge.isUpward) continue;
    const others = placed.filter((other) => other !== edge);
    for (let row = edge.firstRow + 1; row < edge.labelRow; row += 1) {
      if (!isFree(edge, row, others, nodes)) continue;
      placed[index] = { ...edge, labelRow: row };
      break;
    }
  }
  return placed;
}

function isFree(edge: RowEdge, row: number, others: readonly RowEdge[], nodes: readonly RowNode[]): boolean {
  const x = positionIn(edge, row);
  if (x === undefined) return false;
  const reach = edge.label.width / 2 + labelClearance;
  const isClearOf = (position: number | undefined, width: number): boolean =>
    position === undefined || Math.abs(position - x) >= reach + width / 2;
  return (
    nodes.every((node) => node.row !== row || isClearOf(node.x, node.symbol.width)) &&
    others.every((other) => isClearOf(positionIn(other, row), other.labelRow === row ? other.label.width : 0))
  );
}

/** Where an edge passes a row between its ends; undefined outside. */
function positionIn(edge: RowEdge, row: number): number | undefined {
  return row > edge.firstRow && row < edge.lower.row ? edge.positions[row - edge.firstRow] : undefined;
}

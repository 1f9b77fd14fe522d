import type { DecisionGraph, GraphEdge, GraphNode } from './decision-graph.ts';
import { type Label, measureLabel, type MeasureText } from './label.ts';
import type { PlacedEdge, PlacedNode, Point, Sheet } from './sheet.ts';
import { type FittedSymbol, fitSymbol } from './symbol.ts';

const margin = 10;
const spine = margin + 4;
const rowGap = 16;
/** Level line on each side of a label, arrow included. */
const stub = 14;
/** Height from a symbol's head or foot to the level line that leads to the spine. */
const turn = 22;
const startRoom = 44;
const startHalf = 11;

/**
 * Lays out one node with those a step before and after it, for a screen as narrow as a phone's: the nodes stand under
 * each other, and one upright line at the left leads into the node and on from it. No layout engine is needed. About
 * 320 pixels wide; the height follows from the number of answers. A node that both leads here and is led to, as in a
 * draft that runs in circles, stands above. An id the graph lacks gives an empty sheet.
 */
export function arrangeNeighbourhood(graph: DecisionGraph, id: string, measure: MeasureText): Sheet {
  const near = findNeighbourhood(graph, id);
  const focus = near.nodes.find((node) => node.id === id);
  if (focus === undefined)
    return { width: 0, height: 0, nodes: [], edges: [], joints: [], connectors: [], startMark: undefined };
  const before = listRows(
    near.edges.filter((edge) => edge.to === id),
    (edge) => edge.from,
    near,
    measure,
  );
  const above = new Set(before.map((row) => row.node.id));
  const after = listRows(
    near.edges.filter((edge) => edge.from === id && !above.has(edge.to)),
    (edge) => edge.to,
    near,
    measure,
  );
  const labelWidth = Math.max(0, ...[...before, ...after].map((row) => row.label.width));
  const left = before.length + after.length === 0 ? margin : spine + 2 * stub + labelWidth;
  const symbol = fitSymbol(focus.kind, focus.title, measure);
  const middle = left + symbol.width / 2;
  const isStart = graph.start === id;

  const placedBefore = stackRows(before, margin, left);
  const top = before.length > 0 ? bottomOf(placedBefore) + turn : margin + (isStart ? startRoom : 0);
  const foot = top + symbol.height;
  const placedAfter = stackRows(after, foot + turn + 6, left);
  const placedFocus: PlacedNode = { node: focus, symbol, left, top };

  const entry = before.length > 0 ? top - turn + 4 : top;
  const exit = foot + turn / 2;
  const edges = [
    ...placedBefore.map((row) =>
      placeEdge(row, labelWidth, [
        { x: row.placed.left, y: row.level },
        { x: spine, y: row.level },
        { x: spine, y: entry },
        { x: middle, y: entry },
        { x: middle, y: top },
      ]),
    ),
    ...placedAfter.map((row) =>
      placeEdge(row, labelWidth, [
        { x: middle, y: foot },
        { x: middle, y: exit },
        { x: spine, y: exit },
        { x: spine, y: row.level },
        { x: row.placed.left, y: row.level },
      ]),
    ),
  ];
  const nodes = [...placedBefore.map((row) => row.placed), placedFocus, ...placedAfter.map((row) => row.placed)];
  const joints = [...placedBefore.slice(1), ...placedAfter.slice(0, -1)].map((row) => ({ x: spine, y: row.level }));
  const mark = { x: middle, y: margin + startHalf };
  return {
    width: Math.max(...nodes.map((node) => node.left + node.symbol.width)) + margin,
    height: Math.max(foot, bottomOf(placedAfter)) + margin,
    nodes,
    edges,
    joints,
    connectors: [],
    startMark:
      isStart && before.length === 0
        ? {
            mark,
            points: [
              { x: middle, y: mark.y + startHalf },
              { x: middle, y: top },
            ],
          }
        : undefined,
  };
}

/**
 * Cuts out of a graph one node, the nodes one step before it and the nodes one step after it, with the edges that touch
 * the node: what fits a phone. Ways among the neighbours themselves are left out. An id the graph does not hold gives
 * an empty graph.
 *
 * @example findNeighbourhood(graph, 'amplifier-path').nodes.map((node) => node.id)
 * // ['tone-at-pot', 'amplifier-path', 'coupling-open', 'amplifier-dead', 'speaker-open']
 */
export function findNeighbourhood(graph: DecisionGraph, id: string): DecisionGraph {
  const edges = graph.edges.filter((edge) => edge.from === id || edge.to === id);
  const kept = new Set([id, ...edges.flatMap((edge) => [edge.from, edge.to])]);
  const nodes = graph.nodes.filter((node) => kept.has(node.id));
  const start = nodes.some((node) => node.id === graph.start) ? graph.start : undefined;
  return { title: graph.title, start, nodes, edges };
}

interface Row {
  readonly edge: GraphEdge;
  readonly node: GraphNode;
  readonly symbol: FittedSymbol;
  readonly label: Label;
}

interface PlacedRow extends Row {
  readonly placed: PlacedNode;
  /** Height of the level line that meets the symbol's side. */
  readonly level: number;
}

function listRows(
  edges: readonly GraphEdge[],
  findOther: (edge: GraphEdge) => string,
  graph: DecisionGraph,
  measure: MeasureText,
): readonly Row[] {
  return edges.flatMap((edge) => {
    const node = graph.nodes.find((other) => other.id === findOther(edge));
    if (node === undefined) return [];
    return [
      { edge, node, symbol: fitSymbol(node.kind, node.title, measure), label: measureLabel(edge.label, measure) },
    ];
  });
}

function stackRows(rows: readonly Row[], top: number, left: number): readonly PlacedRow[] {
  let next = top;
  return rows.map((row) => {
    const room = Math.max(row.symbol.height, 2 * Math.ceil(row.label.height / 2));
    const level = next + room / 2;
    next += room + rowGap;
    const placed = { node: row.node, symbol: row.symbol, left, top: level - row.symbol.height / 2 };
    return { ...row, placed, level };
  });
}

function bottomOf(rows: readonly PlacedRow[]): number {
  return Math.max(0, ...rows.map((row) => row.level + Math.max(row.symbol.height, row.label.height) / 2));
}

function placeEdge(row: PlacedRow, labelWidth: number, points: readonly Point[]): PlacedEdge {
  return { edge: row.edge, points, label: { ...row.label, x: spine + stub + labelWidth / 2, y: row.level } };
}

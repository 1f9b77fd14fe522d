import type { DecisionGraph } from './decision-graph.ts';
import type { MeasureText } from './label.ts';
import { findJoints, type Gap, routeGap } from './route-gap.ts';
import type { PlacedEdge, PlacedNode, Point, Sheet, StartMark } from './sheet.ts';
import { fitSymbol, roundUpToEven } from './symbol.ts';
import { findRows, raiseLabels, type RowEdge, type RowNode, traceEdge } from './trace-edge.ts';

/** What a layout engine says: where the middle of each node lies, and the turns of each edge between its ends. */
export interface Layout {
  readonly nodes: ReadonlyMap<string, Point>;
  /** One for each edge of the graph, in its order; the points without the two where the line meets a symbol. */
  readonly turns: readonly (readonly Point[])[];
}

const margin = 10;
/** Room over and under the level lines of a gap, between neighbouring tracks, and for an arrow. */
const gapEdge = 11;
const trackPitch = 9;
const arrowRoom = 8;
/** Room that the start mark takes over the first symbol, and its half height. */
const startRoom = 44;
const startHalf = 11;

/**
 * Turns a layout into a sheet of upright and level lines.
 *
 * Only the order of the rows and the positions across are taken from the layout. Lines leave a symbol at the middle of
 * its foot and enter at the middle of its head; the lines out of one symbol branch from one level line, those into one
 * symbol join in one (ISO 5807 allows both), and the height of every gap follows from the lines in it.
 */
export function arrangeSheet(graph: DecisionGraph, layout: Layout, measure: MeasureText): Sheet {
  const rows = findRows([...layout.nodes.values(), ...layout.turns.flat()]);
  const nodes = graph.nodes.flatMap((node): readonly RowNode[] => {
    const place = layout.nodes.get(node.id);
    if (place === undefined) return [];
    return [{ node, symbol: fitSymbol(node.kind, node.title, measure), x: Math.round(place.x), row: rows.of(place.y) }];
  });
  const byId = new Map(nodes.map((node) => [node.node.id, node]));
  const traced = graph.edges.flatMap((edge, index): readonly RowEdge[] => {
    const [from, to] = [byId.get(edge.from), byId.get(edge.to)];
    if (from === undefined || to === undefined) return [];
    return [traceEdge(edge, from, to, layout.turns[index] ?? [], rows, measure)];
  });
  const edges = raiseLabels(traced, nodes);
  const gaps = Array.from({ length: rows.count }, (_, row) => routeGap(row, edges));
  const heights = measureRows(rows.count, nodes, edges);
  const tops = stackRows(heights, gaps, graph.start === undefined ? margin : margin + startRoom);
  const middleOf = (row: number): number => (tops[row] ?? 0) + (heights[row] ?? 0) / 2;

  const placedNodes = nodes.map((node): PlacedNode => ({
    node: node.node,
    symbol: node.symbol,
    left: node.x - node.symbol.width / 2,
    top: middleOf(node.row) - node.symbol.height / 2,
  }));
  const heightOfTrack = (row: number, track: number): number =>
    (tops[row] ?? 0) + (heights[row] ?? 0) + gapEdge + track * trackPitch;
  const placedEdges = edges.map((edge) => placeEdge(edge, gaps, heightOfTrack, middleOf));
  const joints = gaps.flatMap((gap, row) => findJoints(gap, (track) => heightOfTrack(row, track)));
  return shiftToOrigin(placedNodes, placedEdges, joints, placeStart(graph.start, placedNodes));
}

function measureRows(count: number, nodes: readonly RowNode[], edges: readonly RowEdge[]): readonly number[] {
  const heights = Array.from({ length: count }, () => 0);
  const raise = (row: number, height: number): void => {
    heights[row] = Math.max(heights[row] ?? 0, height);
  };
  for (const node of nodes) raise(node.row, node.symbol.height);
  for (const edge of edges) raise(edge.labelRow, roundUpToEven(edge.label.height));
  return heights;
}

function stackRows(heights: readonly number[], gaps: readonly Gap[], top: number): readonly number[] {
  const tops: number[] = [];
  let next = top;
  for (const [row, height] of heights.entries()) {
    tops.push(next);
    next += height + heightOfGap(gaps[row]);
  }
  return tops;
}

function heightOfGap(gap: Gap | undefined): number {
  if (gap === undefined) return 0;
  const tracks = gap.tracks.flatMap((track) => (track === undefined ? [] : [track]));
  const level = tracks.length === 0 ? 0 : Math.max(...tracks) * trackPitch;
  return gapEdge + level + gapEdge + (gap.hasArrows ? arrowRoom : 0);
}

function placeEdge(
  edge: RowEdge,
  gaps: readonly Gap[],
  heightOfTrack: (row: number, track: number) => number,
  middleOf: (row: number) => number,
): PlacedEdge {
  const foot = middleOf(edge.upper.row) + edge.upper.symbol.height / 2;
  const head = middleOf(edge.lower.row) - edge.lower.symbol.height / 2;
  const points: Point[] = [{ x: edge.upper.x, y: foot }];
  for (let place = 0; place + 1 < edge.positions.length; place += 1) {
    const row = edge.firstRow + place;
    const [here, next] = [edge.positions[place] ?? 0, edge.positions[place + 1] ?? 0];
    const gap = gaps[row];
    const track = gap?.tracks[gap.netOfEdge.get(edge) ?? -1];
    if (here === next) continue;
    const y = heightOfTrack(row, track ?? 0);
    points.push({ x: here, y }, { x: next, y });
  }
  points.push({ x: edge.lower.x, y: head });
  const x = edge.positions[edge.labelRow - edge.firstRow] ?? edge.upper.x;
  return {
    edge: edge.edge,
    points: edge.isUpward ? points.reverse() : points,
    label: { ...edge.label, x, y: middleOf(edge.labelRow) },
  };
}

function placeStart(start: string | undefined, nodes: readonly PlacedNode[]): StartMark | undefined {
  const first = nodes.find((node) => node.node.id === start);
  if (first === undefined) return undefined;
  const x = first.left + first.symbol.width / 2;
  const mark = { x, y: first.top - startRoom + startHalf };
  return {
    mark,
    points: [
      { x, y: mark.y + startHalf },
      { x, y: first.top },
    ],
  };
}

function shiftToOrigin(
  nodes: readonly PlacedNode[],
  edges: readonly PlacedEdge[],
  joints: readonly Point[],
  startMark: StartMark | undefined,
): Sheet {
  const lefts = [...nodes.map((node) => node.left), ...edges.map((edge) => edge.label.x - edge.label.width / 2)];
  const corners = edges.flatMap((edge) => edge.points.map((point) => point.x));
  const shift = margin - Math.min(...lefts, ...corners, startMark === undefined ? Infinity : startMark.mark.x - 40);
  const move = <P extends Point>(point: P): P => ({ ...point, x: point.x + (Number.isFinite(shift) ? shift : 0) });
  const movedNodes = nodes.map((node) => ({ ...node, left: node.left + shift }));
  const movedEdges = edges.map((edge) => ({ ...edge, points: edge.points.map(move), label: move(edge.label) }));
  const rights = [
    ...movedNodes.map((node) => node.left + node.symbol.width),
    ...movedEdges.flatMap((edge) => [edge.label.x + edge.label.width / 2, ...edge.points.map((point) => point.x)]),
  ];
  const bottoms = movedNodes.map((node) => node.top + node.symbol.height);
  return {
    width: Math.max(margin, ...rights) + margin,
    height: Math.max(margin, ...bottoms) + margin,
    nodes: movedNodes,
    edges: movedEdges,
    joints: joints.map(move),
    connectors: [],
    startMark: startMark === undefined ? undefined : { mark: move(startMark.mark), points: startMark.points.map(move) },
  };
}

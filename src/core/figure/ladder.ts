import type { DecisionGraph, GraphEdge, GraphNode } from './decision-graph.ts';
import { edgeType, type Label, measureLabel, type MeasureText, wrapLabel } from './label.ts';
import { type Connector, connectorRadius, type PlacedEdge, type PlacedNode, type Point, type Sheet } from './sheet.ts';
import { type FittedSymbol, fitSymbol } from './symbol.ts';

const margin = 4;
const spine = margin + 5;
/** Level line on each side of an answer, arrow included. */
const stub = 12;
const rowGap = 14;
/** Height from a symbol's foot to the level line that leads to the spine, and from there to the first answer. */
const turn = 12;
/** Height from the last answer to the head of the next symbol. */
const drop = 20;
const startRoom = 44;
const startHalf = 11;
/** Between a connector's circle and what it belongs to. */
const connectorGap = 14;
/** Width of the column on a phone of 390 pixels. */
const columnWidth = 358;

/**
 * Lays a whole graph out as a ladder, for a screen as narrow as a phone's: checks and paths stand under each other, the
 * answers of each are rungs, and an end stands at its first rung. A way that does not lead to the next symbol ends in a
 * numbered circle beside the title of what it leads to; the same number stands where the way goes on (the connector of
 * ISO 5807). No layout engine is needed. At most 358 pixels wide unless a single word is wider than a symbol; 30 nodes
 * are about 3,000 pixels tall.
 */
export function arrangeLadder(graph: DecisionGraph, measure: MeasureText): Sheet {
  const ladder = planLadder(graph);
  const symbols = new Map(graph.nodes.map((node) => [node, fitSymbol(node.kind, node.title, measure)]));
  const labels = new Map(graph.edges.map((edge) => [edge, measureLabel(edge.label, measure)]));
  const labelWidth = Math.max(0, ...[...labels.values()].map((label) => label.width));
  const steps = ladder.blocks.flatMap(({ node }) => symbols.get(node)?.width ?? 0);
  const middle = Math.max(spine + stub + labelWidth + 4, margin + Math.ceil(Math.max(0, ...steps) / 2));
  const right = spine + labelWidth + 2 * stub;

  const nodes: PlacedNode[] = [];
  const edges: PlacedEdge[] = [];
  const connectors: Connector[] = [];
  const joints: Point[] = [];
  let y = margin + (graph.start === undefined ? 0 : startRoom);
  /** The line that comes down the spine to the next symbol: the answer it belongs to, and its corners so far. */
  let entering: { readonly edge: GraphEdge; readonly label: Label; readonly points: readonly Point[] } | undefined;

  for (const { node, rungs } of ladder.blocks) {
    const symbol = symbols.get(node);
    if (symbol === undefined) continue;
    const number = ladder.numbers.get(node);
    if (number !== undefined) {
      const level = y + drop;
      const isJoining = entering !== undefined;
      y = level + drop + (isJoining ? 0 : connectorRadius);
      const x = isJoining ? middle + 2 * connectorGap + connectorRadius : middle;
      const points = isJoining
        ? [
            { x: x - connectorRadius, y: level },
            { x: middle, y: level },
          ]
        : [
            { x, y: level + connectorRadius },
            { x, y },
          ];
      connectors.push({ node, number, x, y: level, points, lines: [] });
    } else if (entering !== undefined) {
      y += drop;
    }
    if (entering !== undefined) {
      edges.push(placeEdge(entering.edge, entering.label, labelWidth, [...entering.points, { x: middle, y }]));
    }
    nodes.push({ node, symbol, left: middle - symbol.width / 2, top: y });
    y += symbol.height;
    entering = undefined;
    if (rungs.length === 0) {
      y += rowGap + drop;
      continue;
    }
    const exit = y + turn;
    y = exit + turn;
    for (const [index, rung] of rungs.entries()) {
      const label = labels.get(rung.edge);
      if (label === undefined) continue;
      const placed = placeRung(rung, symbols, ladder.numbers, right, measure);
      const height = Math.max(label.height, placed.height);
      const level = y + Math.ceil(height / 2);
      const isLast = index === rungs.length - 1;
      if (!isLast) joints.push({ x: spine, y: level });
      const points = [
        { x: middle, y: exit - turn },
        { x: middle, y: exit },
        { x: spine, y: exit },
        { x: spine, y: level },
      ];
      if (rung.kind === 'next') {
        entering = { edge: rung.edge, label, points: [...points, { x: middle, y: level }] };
        y = level;
        continue;
      }
      nodes.push(...placed.nodes.map((end) => ({ ...end, top: level - end.symbol.height / 2 })));
      connectors.push(
        ...placed.connectors.map((end) => ({
          ...end,
          y: level,
          points: end.points.map((point) => ({ ...point, y: level })),
        })),
      );
      edges.push(placeEdge(rung.edge, label, labelWidth, [...points, { x: right, y: level }]));
      y = level + Math.ceil(height / 2) + rowGap;
    }
    if (entering === undefined) y += drop;
  }
  const first = nodes.find(({ node }) => node.id === graph.start);
  const mark = { x: middle, y: margin + startHalf };
  return {
    width: Math.max(columnWidth, ...nodes.map((node) => node.left + node.symbol.width + margin)),
    height: Math.max(margin, ...[...nodes, ...edges, ...connectors].map(footOf)) + margin,
    nodes,
    edges,
    joints,
    connectors,
    startMark:
      first === undefined
        ? undefined
        : {
            mark,
            points: [
              { x: middle, y: mark.y + startHalf },
              { x: middle, y: first.top },
            ],
          },
  };
}

/** An answer and how it is drawn: down to the next symbol, to an end that stands here, or to a numbered circle. */
interface Rung {
  readonly kind: 'next' | 'end' | 'elsewhere';
  readonly edge: GraphEdge;
  readonly to: GraphNode;
}

interface Ladder {
  readonly blocks: readonly { readonly node: GraphNode; readonly rungs: readonly Rung[] }[];
  /** Numbers of the nodes that circles lead to, in the order in which they stand down the page. */
  readonly numbers: ReadonlyMap<GraphNode, number>;
}

/**
 * Orders the nodes with answers so that lines run down the page, each symbol soon after one that leads to it, and says
 * how each answer is drawn. A node that nothing leads to (in a draft) begins a piece of its own; circles there run up.
 */
function planLadder(graph: DecisionGraph): Ladder {
  const byId = new Map(graph.nodes.map((node) => [node.id, node]));
  const waysOut = new Map<string, GraphEdge[]>();
  for (const edge of graph.edges) waysOut.set(edge.from, [...(waysOut.get(edge.from) ?? []), edge]);
  const entered = new Set(graph.edges.map((edge) => edge.to));
  const isStep = (node: GraphNode): boolean => waysOut.has(node.id) || node.id === graph.start || !entered.has(node.id);

  const steps: GraphNode[] = [];
  const seen = new Set<string>();
  const visit = (node: GraphNode): void => {
    if (seen.has(node.id) || !isStep(node)) return;
    seen.add(node.id);
    for (const { to } of (waysOut.get(node.id) ?? []).toReversed()) {
      const next = byId.get(to);
      if (next !== undefined) visit(next);
    }
    steps.unshift(node);
  };
  const start = byId.get(graph.start ?? '');
  for (const node of graph.nodes.toReversed()) if (!entered.has(node.id) && node !== start) visit(node);
  if (start !== undefined) visit(start);
  for (const node of graph.nodes) visit(node);

  const drawn = new Set<string>();
  const blocks = steps.map((node, index) => {
    const rungs = (waysOut.get(node.id) ?? []).flatMap((edge): readonly Rung[] => {
      const to = byId.get(edge.to);
      if (to === undefined) return [];
      if (to === steps[index + 1]) return [{ kind: 'next', edge, to }];
      if (isStep(to) || drawn.has(to.id)) return [{ kind: 'elsewhere', edge, to }];
      drawn.add(to.id);
      return [{ kind: 'end', edge, to }];
    });
    return { node, rungs: rungs.toSorted((one, other) => Number(one.kind === 'next') - Number(other.kind === 'next')) };
  });
  const cut = new Set(blocks.flatMap(({ rungs }) => rungs.flatMap(({ kind, to }) => (kind === 'elsewhere' ? to : []))));
  const down = blocks.flatMap(({ node, rungs }) => [
    node,
    ...rungs.flatMap(({ kind, to }) => (kind === 'end' ? to : [])),
  ]);
  return { blocks, numbers: new Map(down.filter((node) => cut.has(node)).map((node, index) => [node, index + 1])) };
}

interface RungEnd {
  readonly height: number;
  readonly nodes: readonly Omit<PlacedNode, 'top'>[];
  readonly connectors: readonly Omit<Connector, 'y'>[];
}

function placeRung(
  { kind, to }: Rung,
  symbols: ReadonlyMap<GraphNode, FittedSymbol>,
  numbers: ReadonlyMap<GraphNode, number>,
  left: number,
  measure: MeasureText,
): RungEnd {
  const symbol = symbols.get(to);
  const number = numbers.get(to);
  if (kind === 'next' || symbol === undefined) return { height: 0, nodes: [], connectors: [] };
  if (kind === 'elsewhere') {
    const text = left + 2 * connectorRadius + 5;
    const lines = wrapLabel(to.title, columnWidth - margin - text, (line) => measure(line, edgeType.size));
    const connector = { node: to, number: number ?? 0, x: left + connectorRadius, points: [], lines };
    return {
      height: Math.max(2 * connectorRadius, lines.length * edgeType.line),
      nodes: [],
      connectors: [connector],
    };
  }
  const end = left + symbol.width;
  const circle = end + connectorGap + connectorRadius;
  return {
    height: symbol.height,
    nodes: [{ node: to, symbol, left }],
    connectors:
      number === undefined
        ? []
        : [
            {
              node: to,
              number,
              x: circle,
              points: [
                { x: end + connectorGap, y: 0 },
                { x: end, y: 0 },
              ],
              lines: [],
            },
          ],
  };
}

function placeEdge(edge: GraphEdge, label: Label, labelWidth: number, points: readonly Point[]): PlacedEdge {
  const level = points[3]?.y ?? 0;
  return { edge, points, label: { ...label, x: spine + stub + labelWidth / 2, y: level } };
}

function footOf(placed: PlacedNode | PlacedEdge | Connector): number {
  if ('symbol' in placed) return placed.top + placed.symbol.height;
  if ('label' in placed) return placed.label.y + placed.label.height / 2;
  return placed.y + Math.max(connectorRadius, (placed.lines.length * edgeType.line) / 2);
}

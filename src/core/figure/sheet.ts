import type { NodeKind } from '../model/fault-tree.ts';
import type { GraphEdge, GraphNode } from './decision-graph.ts';
import { edgeType, type Label, nodeType, offsetOfLine, tidyLabel } from './label.ts';
import { type FittedSymbol, outlineSymbol } from './symbol.ts';

/** A graph laid out on a sheet: every length a whole number of pixels, the origin at the top left. */
export interface Sheet {
  readonly width: number;
  readonly height: number;
  readonly nodes: readonly PlacedNode[];
  readonly edges: readonly PlacedEdge[];
  /** Dots where a line branches from another or joins it. */
  readonly joints: readonly Point[];
  /** Ends of lines that are cut, as only a ladder has. */
  readonly connectors: readonly Connector[];
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

/** An edge's label, centred on (x, y). */
export interface PlacedLabel extends Point, Label {}

/**
 * One end of a line that is cut: a circle with a number, the same at both ends (the connector of ISO 5807). Where a line
 * ends it tells the title of the node that it goes to; where it goes on, `points` lead from the circle to the node.
 */
export interface Connector extends Point {
  readonly node: GraphNode;
  readonly number: number;
  readonly points: readonly Point[];
  /** Lines of the title, to the right of the circle; none where the line goes on. */
  readonly lines: readonly string[];
}

/** Radius of a connector, in pixels. */
export const connectorRadius = 10;

export interface StartMark {
  /** Centre of the terminator that says "start". */
  readonly mark: Point;
  readonly points: readonly Point[];
}

export interface DrawOptions {
  /** Accessible name of the drawing. */
  readonly name: string;
  /** Before every id in the drawing, so that two drawings can stand on one page: a letter, then letters, digits, `-`. */
  readonly idPrefix: string;
  /** Address of a node's page; undefined draws the node without a link. */
  readonly findAddress: (id: string) => string | undefined;
  /** Node the reader is at: gets the class `here`. */
  readonly here?: string | undefined;
  /** Writes "here" beside every node, for `graph.css` to show where the reader is. */
  readonly saysHere?: boolean;
}

/** Words for the kinds of node, before the title in the accessible name of each. */
export const kindWords: Readonly<Record<NodeKind, string>> = {
  check: 'Check',
  path: 'Signal path',
  cause: 'Cause',
  elsewhere: 'Other tree',
  'hand-over': 'Hand over',
};

/**
 * Writes a sheet as SVG for `graph.css` to style.
 *
 * The drawing holds no style, no script and no event attribute. Every text in it is escaped. Nodes are
 * `<a class="node check" data-node="id">` (`<g>` where they have no address), edges
 * `<g class="edge" data-from="id" data-to="id">`; a page adds `here` and `walked`. Width and height are the natural size
 * in pixels, at which the type is as large as the page's small print.
 */
export function drawSheet(sheet: Sheet, options: DrawOptions): string {
  const hatch = `${options.idPrefix}-hatch`;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" class="sheet" role="group" aria-label="${escapeXml(tidyLabel(options.name))}"`,
    ` width="${sheet.width}" height="${sheet.height}" viewBox="0 0 ${sheet.width} ${sheet.height}"`,
    ` font-family="Sheet" font-weight="600" font-size="${nodeType.size}" text-anchor="middle">`,
    `<defs><pattern id="${hatch}" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">`,
    `<path class="hatch" d="M1 0v5"/></pattern></defs>`,
    ...drawStart(sheet),
    ...sheet.edges.map(drawEdge),
    ...drawJoints(sheet.joints),
    ...sheet.nodes.map((node) => drawNode(node, hatch, options)),
    ...sheet.connectors.map((connector) => drawConnector(connector, options)),
    '</svg>',
  ].join('');
}

/** Writes text so that it stands for itself in XML content and in a quoted attribute. */
export function escapeXml(text: string): string {
  return text
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;')
    .replaceAll("'", '&#39;');
}

function drawStart(sheet: Sheet): readonly string[] {
  if (sheet.startMark === undefined) return [];
  const { mark, points } = sheet.startMark;
  return [
    `<g class="start" aria-hidden="true"><path class="line" d="${drawLine(stopShort(points))}"/>${drawArrow(points)}`,
    `<rect class="symbol" x="${mark.x - 26}" y="${mark.y - 11}" width="52" height="22" rx="11"/>`,
    `${drawLines(['start'], mark.x, mark.y, edgeType)}</g>`,
  ];
}

/** Hidden from those who hear the page: a word like “low” says nothing away from its line. The steps themselves lead on. */
function drawEdge(placed: PlacedEdge): string {
  const { edge, label, points } = placed;
  const gap = `<rect class="gap" x="${label.x - label.width / 2}" y="${label.y - label.height / 2}" width="${label.width}" height="${label.height}"/>`;
  const words = edge.label === '' ? '' : gap + drawLines(label.lines, label.x, label.y, edgeType);
  return (
    `<g class="edge" data-from="${escapeXml(edge.from)}" data-to="${escapeXml(edge.to)}" aria-hidden="true">` +
    `<path class="line" d="${drawLine(stopShort(points))}"/>${drawArrow(points)}${words}</g>`
  );
}

/** Ends a line inside its arrowhead, so that a heavy line does not blunt the tip. */
function stopShort(points: readonly Point[]): readonly Point[] {
  const [before, tip] = points.slice(-2);
  if (before === undefined || tip === undefined) return points;
  const shorter = {
    x: tip.x - 6 * Math.sign(tip.x - before.x),
    y: tip.y - 6 * Math.sign(tip.y - before.y),
  };
  return [...points.slice(0, -1), shorter];
}

/** Upright and level strokes: relative `h` and `v` commands. */
function drawLine(points: readonly Point[]): string {
  const [first, ...rest] = points;
  if (first === undefined) return '';
  let here = first;
  let data = `M${first.x} ${first.y}`;
  for (const point of rest) {
    if (point.x !== here.x) data += `h${point.x - here.x}`;
    if (point.y !== here.y) data += `v${point.y - here.y}`;
    here = point;
  }
  return data;
}

/** A filled arrowhead at the end of an upright or level line. */
function drawArrow(points: readonly Point[]): string {
  const [before, tip] = points.slice(-2);
  if (before === undefined || tip === undefined) return '';
  if (before.y === tip.y) return `<path class="arrow" d="M${tip.x} ${tip.y}l${before.x < tip.x ? -9 : 9}-4v8z"/>`;
  return `<path class="arrow" d="M${tip.x} ${tip.y}l-4 ${before.y < tip.y ? -9 : 9}h8z"/>`;
}

function drawJoints(joints: readonly Point[]): readonly string[] {
  if (joints.length === 0) return [];
  const dots = joints.map((joint) => `M${joint.x - 2} ${joint.y}a2 2 0 1 0 4 0a2 2 0 1 0-4 0z`);
  return [`<path class="joints" d="${dots.join('')}"/>`];
}

function drawNode(placed: PlacedNode, hatch: string, options: DrawOptions): string {
  const { node, symbol, left, top } = placed;
  const { outer, inner, bars } = outlineSymbol(symbol, left, top);
  const strokes = [
    `<path class="symbol" d="${outer}"/>`,
    node.kind === 'cause' ? `<path class="rim" fill="url(#${hatch})" d="${outer}"/>` : '',
    inner === undefined ? '' : `<path class="inner" d="${inner}"/>`,
    bars === undefined ? '' : `<path class="bars" d="${bars}"/>`,
  ].join('');
  const words = drawLines(symbol.lines, left + symbol.width / 2, top + symbol.middle, nodeType);
  const state =
    options.saysHere === true
      ? `<text class="state" x="${left + symbol.width + 3}" y="${top + 12}" font-size="${edgeType.size}" text-anchor="start">here</text>`
      : '';
  const isHere = node.id === options.here;
  const names = `class="node ${node.kind}${isHere ? ' here' : ''}" data-node="${escapeXml(node.id)}"`;
  const spoken = `aria-label="${escapeXml(`${kindWords[node.kind]}: ${tidyLabel(node.title)}`)}"`;
  const address = options.findAddress(node.id);
  return address === undefined
    ? `<g ${names} role="img" ${spoken}>${strokes}${words}${state}</g>`
    : `<a href="${escapeXml(address)}" ${names} ${spoken}${isHere ? ' aria-current="page"' : ''}>${strokes}${words}${state}</a>`;
}

function drawConnector({ node, number, x, y, points, lines }: Connector, options: DrawOptions): string {
  const line = points.length === 0 ? '' : `<path class="line" d="${drawLine(stopShort(points))}"/>${drawArrow(points)}`;
  const circle = `<circle class="symbol" cx="${x}" cy="${y}" r="${connectorRadius}"/>${drawLines([`${number}`], x, y, edgeType)}`;
  if (lines.length === 0) return `<g class="connector" aria-hidden="true">${line}${circle}</g>`;
  const words = drawLines(lines, x + connectorRadius + 5, y, edgeType, 'start');
  const spoken = `aria-label="${escapeXml(`${kindWords[node.kind]}: ${tidyLabel(node.title)}`)}"`;
  const address = options.findAddress(node.id);
  return address === undefined
    ? `<g class="connector" role="img" ${spoken}>${circle}${words}</g>`
    : `<a href="${escapeXml(address)}" class="connector" ${spoken}>${circle}${words}</a>`;
}

/** Lines of text around a middle; the baseline lies 0.35 em, half the height of the capitals, below it. */
function drawLines(
  lines: readonly string[],
  x: number,
  middle: number,
  type: { readonly size: number; readonly line: number },
  anchor?: 'start',
): string {
  const rows = lines.map((line, place) => {
    const y = middle + offsetOfLine(place, lines.length, type.line) + 0.35 * type.size;
    return `<tspan x="${x}" y="${Math.round(10 * y) / 10}">${escapeXml(line)}</tspan>`;
  });
  const size = type === edgeType ? ` font-size="${edgeType.size}"` : '';
  return `<text${size}${anchor === undefined ? '' : ` text-anchor="${anchor}"`}>${rows.join('')}</text>`;
}

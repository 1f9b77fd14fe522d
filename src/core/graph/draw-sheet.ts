import type { NodeKind } from '../model/fault-tree.ts';
import { edgeType, nodeType, offsetOfLine } from './fit-symbol.ts';
import { outlineSymbol } from './outline-symbol.ts';
import type { PlacedEdge, PlacedNode, Point, Sheet } from './sheet.ts';
import { tidyLabel } from './wrap-label.ts';

export interface DrawOptions {
  /** Accessible name of the drawing. */
  readonly name: string;
  /** Before every id in the drawing, so that two drawings can stand on one page: a letter, then letters, digits, `-`. */
  readonly idPrefix: string;
  /** Address of a node's page; undefined draws the node without a link. */
  readonly findAddress: (id: string) => string | undefined;
  /** Node the reader is at: gets the class `here`. */
  readonly here?: string | undefined;
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

function drawEdge(placed: PlacedEdge): string {
  const { edge, label, points } = placed;
  const gap = `<rect class="gap" x="${label.x - label.width / 2}" y="${label.y - label.height / 2}" width="${label.width}" height="${label.height}"/>`;
  const words = edge.label === '' ? '' : gap + drawLines(label.lines, label.x, label.y, edgeType);
  return (
    `<g class="edge" data-from="${escapeXml(edge.from)}" data-to="${escapeXml(edge.to)}">` +
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

/** A filled arrowhead at the end of a line that comes from above, from below or from the left. */
function drawArrow(points: readonly Point[]): string {
  const [before, tip] = points.slice(-2);
  if (before === undefined || tip === undefined) return '';
  if (before.y === tip.y) return `<path class="arrow" d="M${tip.x} ${tip.y}l-9-4v8z"/>`;
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
  const isHere = node.id === options.here;
  const names = `class="node ${node.kind}${isHere ? ' here' : ''}" data-node="${escapeXml(node.id)}"`;
  const spoken = `aria-label="${escapeXml(`${kindWords[node.kind]}: ${tidyLabel(node.title)}`)}"`;
  const address = options.findAddress(node.id);
  return address === undefined
    ? `<g ${names} role="img" ${spoken}>${strokes}${words}</g>`
    : `<a href="${escapeXml(address)}" ${names} ${spoken}${isHere ? ' aria-current="page"' : ''}>${strokes}${words}</a>`;
}

/** Lines of text around a middle; the baseline lies 0.35 em, half the height of the capitals, below it. */
function drawLines(
  lines: readonly string[],
  x: number,
  middle: number,
  type: { readonly size: number; readonly line: number },
): string {
  const rows = lines.map((line, place) => {
    const y = middle + offsetOfLine(place, lines.length, type.line) + 0.35 * type.size;
    return `<tspan x="${x}" y="${Math.round(10 * y) / 10}">${escapeXml(line)}</tspan>`;
  });
  const size = type === edgeType ? ` font-size="${edgeType.size}"` : '';
  return `<text${size}>${rows.join('')}</text>`;
}

import { type MeasureText, wrapLabel } from '#core/figure/label.ts';
import type { Cause, FaultTree, TreeNode } from '#core/model/fault-tree.ts';
import { findNode, linksFrom, isStep } from '#core/model/node.ts';
import type { ColourName, Site } from '#core/model/site.ts';

/** What a preview shows: a tree, or one cause of it. */
export interface PreviewMatter {
  readonly tree: FaultTree;
  readonly blockTitle: string;
  readonly cause: Cause | undefined;
  readonly site: Site;
}

/** A line of text as outlines, its baseline starting at x, y; all in pixels. */
export type TraceText = (text: string, at: { readonly x: number; readonly y: number; readonly size: number }) => string;

export interface Pen {
  readonly trace: TraceText;
  readonly measure: MeasureText;
}

const edge = { left: 28, right: 1172, top: 28, foot: 602 } as const;
const text = { left: 112, width: 640 } as const;
const titleBlockTop = 506;

/** A preview as SVG text: a service sheet with the symptom, the cause, the block, and where it lies in the tree. */
export function drawPreview(matter: PreviewMatter, pen: Pen): string {
  const { width, height } = previewSize;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}">`,
    `<rect width="${width}" height="${height}" fill="${paint.paper}"/>`,
    drawSheet(),
    drawMiniature(matter.tree, matter.cause?.id, { left: 800, top: 76, width: 330, height: 376 }),
    ...(matter.cause === undefined ? drawSymptom(matter.tree, pen) : drawCause(matter.tree, matter.cause, pen)),
    ...drawTitleBlock(matter, pen),
    '</svg>',
  ]
    .join('')
    .replaceAll(/var\(--([a-z]+)\)/g, (_, name: ColourName) => matter.site.colours.light[name]);
}

/** The frame, with the hatched edge that marks a fault on every page of the site. */
function drawSheet(): string {
  const { left, right, top, foot } = edge;
  const hatch = Array.from({ length: 46 }, (_, index) => {
    const y = top + 12 + index * 14;
    return `M${left} ${y}L${left + 44} ${y - 44}`;
  }).join('');
  return [
    `<clipPath id="edge"><rect x="${left}" y="${top}" width="44" height="${foot - top}"/></clipPath>`,
    `<path d="${hatch}" clip-path="url(#edge)" stroke="${paint.signal}" stroke-width="5" fill="none"/>`,
    `<path d="M${left + 44} ${top}V${foot}" stroke="${paint.ink}" stroke-width="3"/>`,
    `<rect x="${left}" y="${top}" width="${right - left}" height="${foot - top}" fill="none" stroke="${paint.ink}" stroke-width="4"/>`,
  ].join('');
}

function drawSymptom({ title, symptoms }: FaultTree, pen: Pen): readonly string[] {
  // Room for three phrases stays below it; the longest titles take three lines.
  const heading = drawLines(title, { top: 88, sizes: [112, 96, 80, 72], most: 2, fill: paint.ink, mostInNeed: 3 }, pen);
  const phrases = symptoms.slice(0, 3).map((phrase) => `“${phrase}”`);
  // All in the size of the longest.
  const size = Math.min(...phrases.map((phrase) => fitSize(phrase, text.width, [36, 32, 28], pen)));
  const said = phrases.map((phrase, index) =>
    fillWith(paint.faint, pen.trace(phrase, { x: text.left, y: heading.foot + 62 + index * 48, size })),
  );
  return [drawLabel('Symptom', 74, pen), heading.drawn, ...said];
}

function drawCause(tree: FaultTree, cause: Cause, pen: Pen): readonly string[] {
  const symptom = drawLines(tree.title, { top: 86, sizes: [52, 46], most: 2, fill: paint.ink }, pen);
  const rule = symptom.foot + 34;
  const heading = drawLines(
    cause.title,
    { top: rule + 52, sizes: [92, 80, 70, 60], most: 3, fill: paint.signal, foot: titleBlockTop - 24 },
    pen,
  );
  return [
    drawLabel('Symptom', 74, pen),
    symptom.drawn,
    `<path d="M${text.left} ${rule}h120" stroke="${paint.ink}" stroke-width="4"/>`,
    drawLabel('Cause', rule + 38, pen),
    heading.drawn,
  ];
}

function drawTitleBlock({ tree, blockTitle, cause, site }: PreviewMatter, pen: Pen): readonly string[] {
  const checks = tree.nodes.filter(isStep).length;
  const causes = tree.nodes.filter(({ kind }) => kind === 'cause').length;
  const likelihood = { common: 'Common', occasional: 'Now and then', rare: 'Rare' };
  const cells = [
    { x: 72, label: 'Block', value: blockTitle },
    cause === undefined
      ? { x: 480, label: 'Fault tree', value: `${checks} checks, ${causes} causes` }
      : { x: 480, label: 'How often', value: likelihood[cause.chance] },
    { x: 840, label: 'Sheet of', value: site.name },
  ];
  return [
    `<path d="M${cells[0]?.x ?? 0} ${titleBlockTop}H${edge.right}${cells
      .slice(1)
      .map(({ x }) => `M${x} ${titleBlockTop}V${edge.foot}`)
      .join('')}" stroke="${paint.ink}" stroke-width="3" fill="none"/>`,
    ...cells.flatMap(({ x, label, value }, index) => {
      const room = (cells[index + 1]?.x ?? edge.right) - x - 40;
      return [
        fillWith(paint.faint, pen.trace(label, { x: x + 22, y: titleBlockTop + 34, size: 24 })),
        fillWith(
          paint.ink,
          pen.trace(value, { x: x + 22, y: titleBlockTop + 78, size: fitSize(value, room, [42, 36, 30], pen) }),
        ),
      ];
    }),
  ];
}

interface Lines {
  readonly top: number;
  /** Tried from the first on; the last one is taken whatever it needs. */
  readonly sizes: readonly number[];
  readonly most: number;
  /** Lines in the last size, where none fits. */
  readonly mostInNeed?: number;
  readonly fill: string;
  /** Baselines stay above this. */
  readonly foot?: number;
}

/** A title in the largest size that needs at most so many lines. `foot` of the result is the last baseline. */
function drawLines(
  title: string,
  { top, sizes, most, mostInNeed = most, fill, foot = titleBlockTop }: Lines,
  { trace, measure }: Pen,
): { readonly drawn: string; readonly foot: number } {
  const layouts = sizes.map((size) => ({
    size,
    lines: wrapLabel(title, text.width, (line) => measure(line, size)),
  }));
  const fitting = layouts.find(
    ({ size, lines }) => lines.length <= most && top + size * 0.72 + (lines.length - 1) * size <= foot,
  );
  const { size, lines } = fitting ?? layouts.at(-1) ?? { size: 60, lines: [title] };
  const first = top + size * 0.72;
  const drawn = lines
    .slice(0, mostInNeed)
    .map((line, index) => trace(line, { x: text.left, y: first + index * size, size }));
  return { drawn: fillWith(fill, drawn.join('')), foot: first + (Math.min(lines.length, mostInNeed) - 1) * size };
}

function drawLabel(label: string, y: number, { trace }: Pen): string {
  return fillWith(paint.faint, trace(label, { x: text.left, y, size: 26 }));
}

function fitSize(line: string, room: number, sizes: readonly number[], { measure }: Pen): number {
  return sizes.find((size) => measure(line, size) <= room) ?? sizes.at(-1) ?? 30;
}

function fillWith(fill: string, drawn: string): string {
  return `<g fill="${fill}">${drawn}</g>`;
}

/** Where the miniature lies, in pixels. */
export interface Frame {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

interface Spot {
  readonly node: TreeNode;
  readonly x: number;
  readonly y: number;
}

/**
 * The whole tree as a small flowchart without words: decisions as lozenges, ends as terminals (ISO 5807:1985), one row for each
 * step from the start. The shortest way to `marked` is drawn bold and its terminal filled.
 */
export function drawMiniature(tree: FaultTree, marked: string | undefined, frame: Frame): string {
  const before = findWaysIn(tree);
  const spots = placeNodes(tree, before, frame);
  const way = new Set(marked === undefined ? [] : wayTo(marked, before));
  const lines = tree.nodes.flatMap((node) =>
    linksFrom(node).flatMap(({ from, to }) => {
      const [start, end] = [spots.get(from), spots.get(to)];
      return start === undefined || end === undefined
        ? []
        : [{ start, end, isBold: way.has(to) && before.get(to)?.from === from }];
    }),
  );
  const thin = lines.filter(({ isBold }) => !isBold).map(({ start, end }) => lineBetween(start, end));
  const bold = lines.filter(({ isBold }) => isBold).map(({ start, end }) => lineBetween(start, end));
  const symbols = [...spots.values()].map((spot) => drawSymbol(spot, way.has(spot.node.id), spot.node.id === marked));
  return [
    `<path d="${thin.join('')}" fill="none" stroke="${paint.rule}" stroke-width="1.5"/>`,
    `<path d="${bold.join('')}" fill="none" stroke="${paint.ink}" stroke-width="5"/>`,
    ...symbols,
  ].join('');
}

interface WayIn {
  readonly depth: number;
  readonly from: string | undefined;
}

/** For each node, how many steps it lies from the start and the node before it on a shortest way. */
function findWaysIn(tree: FaultTree): ReadonlyMap<string, WayIn> {
  const start = tree.nodes[0]?.id ?? '';
  const found = new Map<string, WayIn>([[start, { depth: 0, from: undefined }]]);
  const open = [start];
  for (const id of open) {
    const node = findNode(tree, id);
    for (const { to } of node === undefined ? [] : linksFrom(node)) {
      if (found.has(to)) continue;
      found.set(to, { depth: (found.get(id)?.depth ?? 0) + 1, from: id });
      open.push(to);
    }
  }
  return found;
}

function wayTo(id: string, before: ReadonlyMap<string, WayIn>): readonly string[] {
  const way: string[] = [];
  for (let at: string | undefined = id; at !== undefined; at = before.get(at)?.from) way.push(at);
  return way;
}

function placeNodes(
  tree: FaultTree,
  before: ReadonlyMap<string, WayIn>,
  { left, top, width, height }: Frame,
): ReadonlyMap<string, Spot> {
  const rows = [...Map.groupBy(before, ([, { depth }]) => depth).values()];
  const step = rows.length < 2 ? 0 : height / (rows.length - 1);
  return new Map(
    rows.flatMap((row, rowIndex) =>
      row.flatMap(([id], index) => {
        const node = findNode(tree, id);
        if (node === undefined) return [];
        const x = left + (width * (index + 0.5)) / row.length;
        return [[id, { node, x: Math.round(x), y: Math.round(top + step * rowIndex) }] as const];
      }),
    ),
  );
}

function lineBetween(start: Spot, end: Spot): string {
  return `M${start.x} ${start.y}L${end.x} ${end.y}`;
}

function drawSymbol({ node, x, y }: Spot, isOnWay: boolean, isMarked: boolean): string {
  const stroke = `stroke="${isMarked ? paint.signal : paint.ink}" stroke-width="${isOnWay ? 4 : 2}"`;
  const fill = `fill="${isMarked ? paint.signal : paint.card}"`;
  if (node.kind === 'check') {
    const size = isOnWay ? 15 : 11;
    return `<path d="M${x - size} ${y}L${x} ${y - size}L${x + size} ${y}L${x} ${y + size}Z" ${fill} ${stroke}/>`;
  }
  if (node.kind === 'path') {
    return `<rect x="${x - 16}" y="${y - 9}" width="32" height="18" ${fill} ${stroke}/>`;
  }
  const half = isMarked ? 26 : 13;
  const rise = isMarked ? 15 : 8;
  return `<rect x="${x - half}" y="${y - rise}" width="${2 * half}" height="${2 * rise}" rx="${rise}" ${fill} ${stroke}/>`;
}

/** Colours of the service sheet in daylight; their values take their place in the finished drawing. */
const paint = {
  paper: 'var(--paper)',
  card: 'var(--card)',
  ink: 'var(--ink)',
  faint: 'var(--faint)',
  rule: 'var(--rule)',
  signal: 'var(--signal)',
} as const;

/** Size of every preview, in pixels: what readers of links show whole. */
export const previewSize = { width: 1200, height: 630 } as const;

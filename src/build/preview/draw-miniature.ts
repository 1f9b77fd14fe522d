import type { FaultTree, TreeNode } from '#core/model/fault-tree.ts';
import { findNode, linksFrom } from '#core/model/node.ts';
import { paint } from './paint.ts';

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

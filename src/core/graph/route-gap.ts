import { assignTracks, isStraight, type Net, spanOf } from './assign-tracks.ts';
import type { Point } from './sheet.ts';
import type { RowEdge } from './trace-edge.ts';

/** The level lines between a row and the next. */
export interface Gap {
  readonly nets: readonly Net[];
  readonly tracks: readonly (number | undefined)[];
  readonly netOfEdge: ReadonlyMap<RowEdge, number>;
  readonly hasArrows: boolean;
}

/** Finds the level lines under a row: one net for each symbol that is left or entered here, or line that passes. */
export function routeGap(row: number, edges: readonly RowEdge[]): Gap {
  const keys: string[] = [];
  const above: number[][] = [];
  const below: number[][] = [];
  const netOfEdge = new Map<RowEdge, number>();
  let hasArrows = false;
  for (const [index, edge] of edges.entries()) {
    const place = row - edge.firstRow;
    const [top, bottom] = [edge.positions[place], edge.positions[place + 1]];
    if (place < 0 || top === undefined || bottom === undefined) continue;
    if (edge.lower.row === row + 1) hasArrows = true;
    const key = nameNet(edge, row, index);
    if (!keys.includes(key)) {
      keys.push(key);
      above.push([]);
      below.push([]);
    }
    const net = keys.indexOf(key);
    above[net]?.push(top);
    below[net]?.push(bottom);
    netOfEdge.set(edge, net);
  }
  const nets = keys.map((_, net) => ({ above: unique(above[net] ?? []), below: unique(below[net] ?? []) }));
  return { nets, tracks: assignTracks(nets), netOfEdge, hasArrows };
}

function nameNet(edge: RowEdge, row: number, index: number): string {
  if (edge.upper.row === row) return `from ${edge.upper.node.id}`;
  if (edge.lower.row === row + 1) return `to ${edge.lower.node.id}`;
  return `pass ${index}`;
}

function unique(positions: readonly number[]): readonly number[] {
  return [...new Set(positions)].sort((a, b) => a - b);
}

/** A dot where three or four strokes of one net meet. */
export function findJoints(gap: Gap, heightOfTrack: (track: number) => number): readonly Point[] {
  return gap.nets.flatMap((net, index) => {
    const track = gap.tracks[index];
    if (track === undefined || isStraight(net)) return [];
    const [first, last] = spanOf(net);
    return unique([...net.above, ...net.below])
      .filter((x) => (x > first && x < last) || (net.above.includes(x) && net.below.includes(x)))
      .map((x) => ({ x, y: heightOfTrack(track) }));
  });
}

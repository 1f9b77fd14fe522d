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

/** Upright lines that one level line joins, in the gap between two rows of symbols. Positions in pixels. */
export interface Net {
  /** Where lines come down to it from the row above. */
  readonly above: readonly number[];
  /** Where lines go down from it to the row below. */
  readonly below: readonly number[];
}

/** Level and upright lines of different nets stay at least this far apart. */
const clearance = 8;
/** Above this many nets all orders are too many to try. */
const mostTried = 6;

/**
 * Gives every net of a gap a track, counted from the top, so that level lines do not run into each other, an upright
 * line never lies on another net's, and few lines cross. A net that is one straight line takes no track (undefined).
 *
 * Every order of the nets is tried (up to six nets, 720 orders; above that two orders), each net taking the highest
 * track that is free. Channel routing with vertical constraints: Hashimoto and Stevens 1971, from memory.
 */
export function assignTracks(nets: readonly Net[]): readonly (number | undefined)[] {
  const level = nets.flatMap((net, index) => (isStraight(net) ? [] : [index]));
  const orders = level.length <= mostTried ? permute(level) : sortBothWays(level, nets);
  let best: readonly (number | undefined)[] = nets.map(() => undefined);
  let bestCost = Number.POSITIVE_INFINITY;
  for (const order of orders) {
    const tracks = placeInOrder(order, nets);
    const cost = costOf(tracks, nets);
    if (cost < bestCost) [best, bestCost] = [tracks, cost];
  }
  return best;
}

export function isStraight(net: Net): boolean {
  const [first, last] = spanOf(net);
  return first === last;
}

export function spanOf(net: Net): readonly [number, number] {
  const all = [...net.above, ...net.below];
  return [Math.min(...all), Math.max(...all)];
}

function placeInOrder(order: readonly number[], nets: readonly Net[]): readonly (number | undefined)[] {
  const tracks: (number | undefined)[] = nets.map(() => undefined);
  for (const index of order) {
    const net = nets[index];
    if (net === undefined) continue;
    const [first, last] = spanOf(net);
    const taken = new Set(
      nets.flatMap((other, place) => {
        const track = tracks[place];
        const [start, end] = spanOf(other);
        return track !== undefined && start < last + clearance && first < end + clearance ? [track] : [];
      }),
    );
    let track = 0;
    while (taken.has(track)) track += 1;
    tracks[index] = track;
  }
  return tracks;
}

function costOf(tracks: readonly (number | undefined)[], nets: readonly Net[]): number {
  let cost = 0;
  for (const [index, net] of nets.entries()) {
    const track = tracks[index];
    if (track === undefined) continue;
    cost += track / 10;
    const [first, last] = spanOf(net);
    for (const [place, other] of nets.entries()) {
      if (place === index) continue;
      const otherTrack = tracks[place];
      const comesDownAcross = otherTrack === undefined || track < otherTrack;
      const goesDownAcross = otherTrack === undefined || track > otherTrack;
      if (comesDownAcross) cost += 10 * countInside(other.above, first, last);
      if (goesDownAcross && otherTrack !== undefined) cost += 10 * countInside(other.below, first, last);
      if (otherTrack !== undefined && track >= otherTrack) cost += 1000 * countClashes(net.above, other.below);
    }
  }
  return cost;
}

function countInside(positions: readonly number[], first: number, last: number): number {
  return positions.filter((position) => position > first - clearance && position < last + clearance).length;
}

/** Upright lines of the upper net that would lie on upright lines of the lower one. */
function countClashes(above: readonly number[], below: readonly number[]): number {
  return above.filter((x) => below.some((other) => Math.abs(x - other) < clearance)).length;
}

function permute(items: readonly number[]): readonly (readonly number[])[] {
  if (items.length === 0) return [[]];
  return items.flatMap((item) => permute(items.filter((other) => other !== item)).map((rest) => [item, ...rest]));
}

function sortBothWays(items: readonly number[], nets: readonly Net[]): readonly (readonly number[])[] {
  const startOf = (index: number): number => {
    const net = nets[index];
    return net === undefined ? 0 : spanOf(net)[0];
  };
  const sorted = [...items].sort((left, right) => startOf(left) - startOf(right));
  return [sorted, [...sorted].reverse()];
}

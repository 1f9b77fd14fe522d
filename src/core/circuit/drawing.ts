import { wrapLabel } from '../figure/label.ts';
import type { Direction, DrawnElement, Drawing, Place, PointFlag } from '../model/circuit.ts';
import { parseValue } from './netlist.ts';
import { type PartSymbol, partSymbols, step, type SymbolName } from './symbols.ts';

/** A rectangle in units of the drawing. */
export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** Where a pin of a part ends, in steps of the grid, and the node it belongs to. */
export interface Pin {
  readonly at: Place;
  readonly node: string;
  /** As it is told: `D1 (anode)`. */
  readonly says: string;
}

/** Lines of text; `anchor` says which end of them lies at `x`. */
export interface Words {
  readonly lines: readonly string[];
  readonly x: number;
  /** The base line of the first. */
  readonly y: number;
  readonly anchor: 'start' | 'middle' | 'end';
}

/** Size of the type of a drawing, which is also the distance of its lines. */
export const typeSize = 11;
/** No letter that the drawings use is much wider on average, in the shipped font nor in one that stands in for it. */
const letterWidth = 5.4;
/** How far from its wire a flag flies, and half of its side. */
const [flagReach, flagHalf] = [20, 8];
const gap = 4;
/** Letters of a line in a box: 56 units wide. */
const boxLetters = 10;

export function symbolOf(name: string): PartSymbol {
  return partSymbols[name as SymbolName];
}

const quarters: Readonly<Record<Direction, number>> = { right: 0, down: 1, left: 2, up: 3 };

export function degreesOf(direction: Direction): number {
  return quarters[direction] * 90;
}

/** A point of a symbol that lies to the right, after it was mirrored and turned. */
function turn([x, y]: Place, direction: Direction, isMirrored: boolean): Place {
  const flipped = isMirrored ? -y : y;
  switch (direction) {
    case 'right':
      return [x, flipped];
    case 'down':
      return [-flipped, x];
    case 'left':
      return [-x, -flipped];
    case 'up':
      return [flipped, -x];
  }
}

/** What a part is called in words: its own words with its names behind them, or its names. */
export function nameOf({ words, elements }: DrawnElement): string {
  return words === undefined ? elements.join(', ') : `${words} (${elements.join(', ')})`;
}

/** The pins of a part that are joined to something. */
export function pinsOf(part: DrawnElement): readonly Pin[] {
  const { pins, pinNames } = symbolOf(part.symbol);
  return part.nodes.flatMap((node, index) => {
    const own = pins[index];
    if (node === undefined || own === undefined) return [];
    const [x, y] = turn(own, part.direction, part.isMirrored);
    // On which side of a box a wire comes in says nothing.
    const pinName = part.symbol === 'box' ? undefined : pinNames[index];
    return {
      at: [part.at[0] + x, part.at[1] + y],
      node,
      says: pinName === undefined ? nameOf(part) : `${nameOf(part)} ${pinName}`,
    };
  });
}

function around(corners: readonly Place[]): Box {
  const [across, down] = [corners.map(([x]) => x), corners.map(([, y]) => y)];
  return { left: Math.min(...across), top: Math.min(...down), right: Math.max(...across), bottom: Math.max(...down) };
}

/** The body of a part, without its leads. */
function bodyOf({ symbol, at, direction, isMirrored }: DrawnElement): Box {
  const [left, top, right, bottom] = symbolOf(symbol).body;
  const corners = [turn([left, top], direction, isMirrored), turn([right, bottom], direction, isMirrored)] as const;
  return around(corners.map(([x, y]) => [at[0] * step + x, at[1] * step + y]));
}

/** All that a part covers: body and leads. */
export function extentOf(part: DrawnElement): Box {
  const { left, top, right, bottom } = bodyOf(part);
  const pins = pinsOf(part).map(({ at: [x, y] }): Place => [x * step, y * step]);
  return around([[left, top], [right, bottom], ...pins]);
}

function shownName({ elements, words }: DrawnElement): string {
  return words ?? elements.join(' ');
}

/** What stands beside a part or in it, as lines. */
function linesOf(part: DrawnElement): readonly string[] {
  const { symbol, value } = part;
  const { value: shown, isRoomy } = symbolOf(symbol);
  const name = shownName(part);
  if (shown === 'alone') return [value ?? name];
  const said = isRoomy === true ? wrapLabel(name, boxLetters, ({ length }) => length) : [name];
  return shown === 'beside' && value !== undefined ? [...said, value] : said;
}

/** Whether the words of a part that holds them inside are small enough for it. */
export function fits(part: DrawnElement): boolean {
  const lines = linesOf(part);
  return (
    symbolOf(part.symbol).isRoomy !== true ||
    (lines.length <= 3 &&
      shownName(part)
        .split(' ')
        .every(({ length }) => length <= boxLetters))
  );
}

/** The words of a part, in one block or in two: above and below a part that lies. */
export function wordsOf(part: DrawnElement): readonly Words[] {
  const lines = linesOf(part);
  const { left, top, right, bottom } = bodyOf(part);
  const [middle, centre] = [(left + right) / 2, (top + bottom) / 2];
  const firstOf = (count: number): number => centre + 4 - ((count - 1) * typeSize) / 2;
  if (symbolOf(part.symbol).isRoomy === true) return [{ lines, x: middle, y: firstOf(lines.length), anchor: 'middle' }];
  const lies = part.direction === 'right' || part.direction === 'left';
  const isEnd = part.symbol === 'terminal';
  const usual = isEnd ? (part.direction === 'left' ? 'leftward' : 'rightward') : lies ? 'both' : 'rightward';
  const above = (shown: readonly string[]): Words => ({
    lines: shown,
    x: middle,
    y: top - gap - (shown.length - 1) * typeSize,
    anchor: 'middle',
  });
  const below = (shown: readonly string[]): Words => ({ lines: shown, x: middle, y: bottom + 11, anchor: 'middle' });
  switch (part.side ?? (part.symbol === 'supply' ? 'above' : usual)) {
    case 'rightward':
      return [{ lines, x: right + gap, y: firstOf(lines.length), anchor: 'start' }];
    case 'leftward':
      return [{ lines, x: left - gap, y: firstOf(lines.length), anchor: 'end' }];
    case 'above':
      return [above(lines)];
    case 'below':
      return [below(lines)];
    case 'both':
      return lines.length < 2 ? [above(lines)] : [above(lines.slice(0, -1)), below(lines.slice(-1))];
  }
}

/** The room that words take. */
export function roomOf({ lines, x, y, anchor }: Words): Box {
  const width = Math.max(...lines.map((line) => line.length)) * letterWidth;
  const left = anchor === 'start' ? x : anchor === 'end' ? x - width : x - width / 2;
  return { left, top: y - 8, right: left + width, bottom: y + (lines.length - 1) * typeSize + 2 };
}

/** The sign of ground below a place. */
export function groundBox([x, y]: Place): Box {
  return { left: x * step - 9, top: y * step, right: x * step + 9, bottom: y * step + 13 };
}

/** Where a flag's leader leaves its wire and meets it, and the middle of the flag. */
export function flagOf({ at, direction }: PointFlag): {
  readonly from: Place;
  readonly to: Place;
  readonly middle: Place;
  readonly box: Box;
} {
  const away = (far: number): Place => {
    const [x, y] = turn([far, 0], direction, false);
    return [at[0] * step + x, at[1] * step + y];
  };
  const middle = away(flagReach);
  const [x, y] = middle;
  return {
    from: away(0),
    to: away(flagReach - flagHalf),
    middle,
    box: { left: x - flagHalf, top: y - flagHalf, right: x + flagHalf, bottom: y + flagHalf },
  };
}

/** Whether a place lies on a stretch of wire between two corners. */
export function liesOn([x, y]: Place, [fromX, fromY]: Place, [toX, toY]: Place): boolean {
  const isAcross = fromY === toY && y === fromY && Math.min(fromX, toX) <= x && x <= Math.max(fromX, toX);
  return isAcross || (fromX === toX && x === fromX && Math.min(fromY, toY) <= y && y <= Math.max(fromY, toY));
}

/** The straight stretches of a drawing's wires. */
export function stretchesOf({ wires }: Pick<Drawing, 'wires'>): readonly {
  readonly node: string;
  readonly from: Place;
  readonly to: Place;
}[] {
  return wires.flatMap(({ node, corners }) =>
    corners.slice(1).map((to, index) => ({ node, from: corners[index] ?? to, to })),
  );
}

/** Where three or more lines of one node meet: a dot is drawn there. */
export function dotsOf(drawing: Drawing): readonly Place[] {
  const stretches = stretchesOf(drawing);
  const ends = [...drawing.parts.flatMap(pinsOf).map(({ at }) => at), ...drawing.grounds];
  const corners = [...ends, ...stretches.flatMap(({ from, to }) => [from, to])];
  const places = new Map(corners.map((place) => [place.join(), place]));
  const isSame = (one: Place, other: Place): boolean => one[0] === other[0] && one[1] === other[1];
  return [...places.values()].filter((place) => {
    const through = stretches.reduce((sum, { from, to }) => {
      if (!liesOn(place, from, to)) return sum;
      return sum + (isSame(place, from) || isSame(place, to) ? 1 : 2);
    }, 0);
    return through + ends.filter((end) => isSame(end, place)).length > 2;
  });
}

const prefixes: Readonly<Record<string, string>> = { meg: 'M', k: 'k', m: 'm', u: 'µ', n: 'n', p: 'p', g: 'G', t: 'T' };
const units: Readonly<Record<string, string>> = { R: 'Ω', C: 'F', L: 'H' };

/** The value of an element as a sheet prints it, or undefined: `4700u` of a capacitor is 4700 µF. */
export function printValue(line: string, parameters: ReadonlyMap<string, number>): string | undefined {
  const [name = '', , , ...rest] = line.split(/\s+/);
  const kind = (name[0] ?? '').toUpperCase();
  const unit = units[kind];
  if (unit !== undefined) {
    const [, digits, letters = ''] = /^(\d+(?:\.\d+)?|\.\d+)(meg|[tgkmunp])?$/i.exec(rest[0] ?? '') ?? [];
    return digits === undefined ? undefined : `${digits}\u00a0${prefixes[letters.toLowerCase()] ?? ''}${unit}`;
  }
  if (kind !== 'V') return undefined;
  const voltsOf = (written: string): number =>
    parameters.get(written.replace(/[{}]/g, '').toUpperCase()) ?? parseValue(written);
  const sign = (value: number): string => `${value > 0 ? '+' : '−'}${Math.abs(value)}\u00a0V`;
  const sine = /SIN\(\S+ (\S+)/i.exec(line);
  if (sine !== null) return `${voltsOf(sine[1] ?? '')}\u00a0V peak`;
  const still = rest.length === 1 ? voltsOf(rest[0] ?? '') : Number.NaN;
  return Number.isNaN(still) ? undefined : sign(still);
}

/** A part in words: `C1: polarised capacitor, 4700 µF`. */
export function sayPart(part: DrawnElement): string {
  const { says, value } = symbolOf(part.symbol);
  return `${nameOf(part)}: ${says}${value === 'none' || part.value === undefined ? '' : `, ${part.value}`}`;
}

/** What is joined to what: for each node the ends that meet there, ground first. */
export function joinsOf({ parts }: Drawing): ReadonlyMap<string, readonly string[]> {
  const byNode = Map.groupBy(parts.flatMap(pinsOf), ({ node }) => node);
  return new Map(
    [...byNode]
      .map(([node, pins]): [string, string[]] => [node, pins.map(({ says }) => says)])
      .toSorted(([one], [other]) => Number(other === '0') - Number(one === '0')),
  );
}

/** Where a lead is put on, in words. */
export function sayLead(node: string, joins: ReadonlyMap<string, readonly string[]>): string {
  if (node === '0') return 'on ground';
  const ends = joins.get(node) ?? [];
  return ends.length < 2 ? `at ${ends.join('')}` : `where ${ends.slice(0, -1).join(', ')} and ${ends.at(-1)} meet`;
}

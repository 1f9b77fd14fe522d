import {
  type Board,
  boardOf,
  boxOf,
  type PlacedPart,
  type Placement,
  placeBody,
  sayThird,
  type Spot,
  turnBy,
} from '../model/placement.ts';
import { type Child, make, type Markup } from './markup.ts';

/** From which side a board is seen: the component side or, mirrored, the solder side. */
export type BoardSide = 'component' | 'solder';

/** What is lit: its flag, and where it is. */
export interface LitMark {
  readonly flag: string;
  readonly title?: string | undefined;
  readonly spots: readonly Spot[];
}

/** A point to be lit, with what its words call it. */
export interface LitPoint {
  /** Its number among several, and what it is called there; undefined where it is alone. */
  readonly among: { readonly number: number; readonly title: string } | undefined;
  readonly spots: readonly Spot[];
}

/** Width of a drawing in its own units: a phone shows it one to one. */
const width = 340;
/** Room for the words at the edges. */
const margin = 16;
/** Units a millimetre at most: larger than life, a small board would fill the screen. */
const mostScale = 2.4;

/**
 * The boards that hold what is lit, each as a figure: the stretch round it, a key that shows where on the board that is, and the
 * words. Nothing where no board of the placement holds any of it.
 */
export function renderLit(placement: Placement, points: readonly LitPoint[], side: BoardSide): readonly Markup[] {
  const marks =
    points.length === 1
      ? splitMarks(points[0]?.spots ?? [])
      : points.map(({ among, spots }) => ({ flag: String(among?.number), spots, title: among?.title }));
  return placement.boards.flatMap((board) => {
    const here = marks.flatMap((mark): readonly LitMark[] => {
      const spots = mark.spots.filter((spot) => boardOf(placement, spot) === board);
      return spots.length === 0 ? [] : [{ ...mark, spots }];
    });
    if (here.length === 0) return [];
    const drawn = drawStretch(board, side, here, true);
    const words = sayMarks(board, here);
    return [
      drawn.svg,
      make('figcaption', {}, drawn.isWhole ? `${board.name}. ${words}${saySide(board, side)}.` : words),
    ];
  });
}

/** The marks of one point: what is the same pin on several parts is one. */
function splitMarks(spots: readonly Spot[]): readonly LitMark[] {
  const groups = [
    ...Map.groupBy(spots, (spot) => ('part' in spot ? spot.pins.join() : `${spot.x} ${spot.y}`)).values(),
  ];
  return groups.map((group, index) => ({ flag: groups.length === 1 ? 'here' : String(index + 1), spots: group }));
}

function sayMarks(board: Board, marks: readonly LitMark[]): string {
  return marks
    .map(({ flag, title, spots }) => {
      const start = flag === 'here' ? '' : `Flag ${flag}${title === undefined ? '' : `, ${title}`}: `;
      return `${start}${saySpots(board, spots)}. `;
    })
    .join('');
}

function saySpots({ parts }: Board, spots: readonly Spot[]): string {
  const [first] = spots;
  if (first === undefined || !('part' in first)) return 'the marked place';
  const part = parts.find(({ name }) => name === first.part);
  const names = spots.flatMap((spot) => ('part' in spot ? [spot.part] : []));
  return `${listNames(names)}${part === undefined || first.pins.length === 0 ? '' : `, ${sayPins(part, first.pins)}`}`;
}

/** `IC31 to IC38` where that is what they are. */
function listNames(names: readonly string[]): string {
  const [, letters = '', from = ''] = /^([A-Za-z]+)(\d+)$/.exec(names[0] ?? '') ?? [];
  const isRun = names.length > 2 && names.every((name, index) => name === `${letters}${Number(from) + index}`);
  return isRun ? `${names[0]} to ${names.at(-1)}` : listWords(names);
}

/** A can and a part with two legs bear no numbers: their legs are told as a bench tells them. */
function sayPins(part: PlacedPart, pins: readonly number[]): string {
  const { kind } = part;
  if (kind === 'chip' || kind === 'plug' || kind === 'legs') {
    const word = kind === 'chip' ? 'pin' : kind === 'plug' ? 'contact' : 'leg';
    return `${word}${pins.length === 1 ? '' : 's'} ${listWords(pins.map(String))}`;
  }
  if (pins.length > 1) return 'both legs';
  if (kind === 'can') return pins[0] === 1 ? 'the plus leg' : 'the minus leg';
  if (isDiode(part)) return pins[0] === 1 ? 'the end with the band' : 'the end without a band';
  return 'the marked leg';
}

const listWords = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;

/** From where a board is seen, as words that can stand alone. */
export function saySide({ seen }: Board, side: BoardSide): string {
  if (seen !== undefined) return `Seen ${seen}`;
  return side === 'solder' ? 'From the solder side, mirrored' : 'From the component side';
}

/** A stretch of a board: its corner in millimetres as it is seen, its size, and units a millimetre. */
interface Frame {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
  readonly scale: number;
  readonly isWhole: boolean;
}

/** The whole board from one side. */
export function drawBoard(board: Board, side: BoardSide, marks: readonly LitMark[] = []): Markup {
  return drawStretch(board, side, marks, false).svg;
}

/** Where on a board, in whole millimetres, a place of its whole drawing from the component side is; held within the board. */
export function findPlace(board: Board, across: number, down: number): { readonly x: number; readonly y: number } {
  const { scale } = wholeFrame(board);
  const hold = (value: number, most: number): number => Math.round(Math.max(0, Math.min(value, most)));
  return {
    x: hold((across - (width - board.width * scale) / 2) / scale, board.width),
    y: hold((down - margin) / scale, board.height),
  };
}

/** The parts of a board in words, by where they sit on it, for those who do not see the drawing. */
export function listParts(board: Board): readonly string[] {
  const byThird = Map.groupBy(board.parts, ({ x, y }) => sayThird(board, x, y));
  return [...byThird].map(
    ([third, parts]) =>
      `${third.charAt(0).toUpperCase()}${third.slice(1)}: ${listWords(parts.map(({ name, print }) => (print === undefined ? name : `${name} (${print})`)))}.`,
  );
}

/**
 * Draws a board as SVG, 340 units wide: outlines and words, what is lit heavy and under a flag. `isCropped` shows the stretch round
 * what is lit alone, with a key.
 */
function drawStretch(
  board: Board,
  side: BoardSide,
  marks: readonly LitMark[],
  isCropped: boolean,
): { readonly svg: Markup; readonly isWhole: boolean } {
  const flip = (x: number): number => (side === 'solder' ? board.width - x : x);
  const lit = marks.map(({ flag, spots }) => ({ flag, places: spots.flatMap((spot) => placesOf(board, spot)) }));
  const all = lit.flatMap(({ places }) => places.map(({ x, y }) => [flip(x), y] as const));
  const frame = isCropped ? frameRound(board, all) : wholeFrame(board);
  const { scale } = frame;
  const toX = (x: number): number => (flip(x) - frame.left) * scale;
  const toY = (y: number): number => (y - frame.top) * scale;
  const litParts = new Set(marks.flatMap(({ spots }) => spots.flatMap((spot) => ('part' in spot ? [spot.part] : []))));
  const view: View = { side, scale, toX, toY, litParts, isCropped };
  const [across, down] = [frame.width * scale, frame.height * scale];
  const foot = margin * 2 + down;
  const height = foot + (frame.isWhole ? 0 : 46);
  const isSeen = (part: PlacedPart): boolean => {
    const { left, right, top, foot: low } = boxOf(part);
    const [one, other] = [flip(left), flip(right)];
    return (
      Math.max(one, other) > frame.left &&
      Math.min(one, other) < frame.left + frame.width &&
      low > frame.top &&
      top < frame.top + frame.height
    );
  };
  const seen = board.parts.filter(isSeen);
  const taken: Box[] = seen.flatMap((part) => {
    const first = placeFirst(part, view);
    return first === undefined ? [boxIn(part, view)] : [boxIn(part, view), boxRound(first, 8)];
  });
  const drawn = [
    make('rect', {
      x: say(-frame.left * scale),
      y: say(-frame.top * scale),
      width: say(board.width * scale),
      height: say(board.height * scale),
      rx: '3',
      fill: 'var(--card)',
      stroke: 'var(--ink)',
      'stroke-width': '2',
    }),
    seen.map((part) => drawPlacedPart(part, view)),
    seen.map((part) => drawName(part, view, taken, [across, down])),
    drawFlags(
      lit.map(({ flag, places }) => ({
        flag,
        places: places.map((place) => ({ ...place, x: toX(place.x), y: toY(place.y), away: place.away * scale })),
      })),
      [across, down],
      taken,
    ),
  ];
  const enlarged = isCropped || scale > 1.7 ? 1 : 2;
  const svg = make(
    'svg',
    {
      class: 'part',
      role: 'img',
      viewBox: `0 0 ${width} ${say(height)}`,
      // A whole board has more to read than a stretch of one: it takes the room that a wide screen has.
      width: String(width * enlarged),
      height: say(height * enlarged),
      'aria-label': describeBoard(board, side, marks),
    },
    make(
      'svg',
      {
        x: say((width - across) / 2),
        y: String(margin),
        width: say(across),
        height: say(down),
        viewBox: `0 0 ${say(across)} ${say(down)}`,
      },
      drawn,
    ),
    sayEdges(board, frame, foot),
    frame.isWhole ? undefined : drawKey(board, side, frame, foot, all),
  );
  return { svg, isWhole: frame.isWhole };
}

function wholeFrame(board: Board): Frame {
  const scale = Math.min(width / board.width, mostScale);
  return { left: 0, top: 0, width: board.width, height: board.height, scale, isWhole: true };
}

/** The stretch round some places, in millimetres as they are seen; the whole board where that is hardly more. */
function frameRound(board: Board, places: readonly (readonly [number, number])[]): Frame {
  const xs = places.map(([x]) => x);
  const ys = places.map(([, y]) => y);
  const [left, right, top, foot] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const across = Math.max(right - left + 50, width / mostScale);
  const down = Math.max(foot - top + 36, 62);
  if (places.length === 0 || across > board.width * 0.85) {
    if (places.length === 0 || down > board.height * 0.6) return wholeFrame(board);
  }
  const [wide, high] = [Math.min(across, board.width), Math.min(down, board.height)];
  const place = (from: number, to: number, size: number, most: number): number =>
    Math.max(0, Math.min((from + to - size) / 2, most - size));
  return {
    left: place(left, right, wide, board.width),
    top: place(top, foot, high, board.height),
    width: wide,
    height: high,
    scale: Math.min(width / wide, mostScale),
    isWhole: false,
  };
}

interface View {
  readonly side: BoardSide;
  readonly scale: number;
  readonly toX: (x: number) => number;
  readonly toY: (y: number) => number;
  readonly litParts: ReadonlySet<string>;
  readonly isCropped: boolean;
}

/** In units of the drawing. */
interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly foot: number;
}

function boxIn(part: PlacedPart, { toX, toY }: View): Box {
  const { left, right, top, foot } = boxOf(part);
  const [one, other] = [toX(left), toX(right)];
  return { left: Math.min(one, other), right: Math.max(one, other), top: toY(top), foot: toY(foot) };
}

const areApart = (one: Box, other: Box): boolean =>
  one.left >= other.right || other.left >= one.right || one.top >= other.foot || other.top >= one.foot;

/** A part's outline with its legs and the mark of leg 1. From the solder side its body is hidden behind the board: a broken line. */
function drawPlacedPart(part: PlacedPart, view: View): readonly Child[] {
  const { toX, toY, scale, side, litParts } = view;
  const body = placeBody(part);
  const isLit = litParts.has(part.name);
  const ink = { fill: 'none', stroke: 'var(--ink)' };
  const [wide, high] = [body.width * scale, body.height * scale];
  const [x, y] = [toX(part.x), toY(part.y)];
  const outline = {
    fill: 'var(--paper)',
    stroke: isLit ? 'var(--signal)' : 'var(--ink)',
    'stroke-width': isLit ? '3' : '1.2',
    'stroke-dasharray': side === 'solder' ? (isLit ? '7 2' : '3 2') : undefined,
  };
  const shape =
    part.kind === 'can'
      ? make('ellipse', { cx: say(x), cy: say(y), rx: say(wide / 2), ry: say(high / 2), ...outline })
      : make('rect', { x: say(x - wide / 2), y: say(y - high / 2), width: say(wide), height: say(high), ...outline });
  const at = (dx: number, dy: number): readonly [number, number] => placeIn(part, view, dx, dy);
  const rows = Object.values(Object.groupBy(body.legs, (leg) => rowOf(part, leg.number)));
  // A row of legs is one broken line, its gaps those between the legs.
  const legs = rows.map((row = []) => {
    const [first, last] = [row[0], row.at(-1)];
    if (first === undefined || last === undefined) return undefined;
    if (part.kind === 'can') return undefined;
    if (part.kind === 'two')
      return make('line', {
        x1: say(toX(first.x)),
        y1: say(toY(first.y)),
        x2: say(toX(last.x)),
        y2: say(toY(last.y)),
        ...ink,
        'stroke-width': '1.2',
      });
    const length = Math.hypot(last.x - first.x, last.y - first.y) * scale;
    const size = Math.max(1.2, scale);
    const step = row.length > 1 ? length / (row.length - 1) : size * 2;
    const [dx, dy] =
      length === 0
        ? [0, size / 2]
        : [((toX(last.x) - toX(first.x)) / length) * (size / 2), ((toY(last.y) - toY(first.y)) / length) * (size / 2)];
    return make('line', {
      x1: say(toX(first.x) - dx),
      y1: say(toY(first.y) - dy),
      x2: say(toX(last.x) + dx),
      y2: say(toY(last.y) + dy),
      ...ink,
      'stroke-width': say(size * 1.3),
      'stroke-dasharray': `${fine(size)} ${fine(Math.max(step - size, 0.1))}`,
    });
  });
  const [one] = body.legs;
  const marks: Child[] = [];
  const flat = placeBody({ ...part, turn: 0 });
  const stroke = ([x1, y1]: readonly [number, number], [x2, y2]: readonly [number, number], width: number): Child =>
    make('line', { x1: say(x1), y1: say(y1), x2: say(x2), y2: say(y2), ...ink, 'stroke-width': say(width) });
  if (part.kind === 'chip') {
    const [notchX, notchY] = at(0, -flat.height / 2);
    marks.push(
      make('ellipse', {
        cx: say(notchX),
        cy: say(notchY),
        rx: say(scale * 1.1),
        ry: say(scale * 1.1),
        fill: 'var(--ink)',
      }),
    );
  }
  if (part.kind === 'legs') {
    const back = -flat.height / 2;
    marks.push(stroke(at(-flat.width / 2, back), at(flat.width / 2, back), scale * 1.4));
  }
  if (part.kind === 'two' && isDiode(part)) {
    const band = -flat.width * 0.3;
    marks.push(stroke(at(band, -flat.height / 2), at(band, flat.height / 2), scale));
  }
  const first = placeFirst(part, view);
  if (one !== undefined && first !== undefined) marks.push(drawFirst(part, one, first, view));
  return part.kind === 'two' ? [legs, shape, marks] : [shape, legs, marks];
}

/** Parts whose polarity is a band. */
const isDiode = ({ name, print = '' }: PlacedPart): boolean => /^D\d/.test(name) || /^1N/.test(print);

/** Legs of one row get one line. */
function rowOf({ kind, size: [count = 2, rows = 1] }: PlacedPart, number: number): string {
  if (kind === 'chip') return number <= count / 2 ? 'a' : 'b';
  return kind === 'plug' ? String((number - 1) % rows) : 'a';
}

/** A place of a part, so far from its middle before it is turned, in units of the drawing. */
function placeIn({ turn, x, y }: PlacedPart, { toX, toY }: View, dx: number, dy: number): readonly [number, number] {
  const [turnedX, turnedY] = turnBy(turn, dx, dy);
  return [toX(x + turnedX), toY(y + turnedY)];
}

/** Where the number of leg 1, or the plus of a can, stands: beside the leg and outside the body. Undefined where there is none or no room. */
function placeFirst(part: PlacedPart, view: View): readonly [number, number] | undefined {
  const { scale } = view;
  if (scale <= 1.7 || !['chip', 'legs', 'plug', 'can'].includes(part.kind)) return undefined;
  const flat = placeBody({ ...part, x: 0, y: 0, turn: 0 });
  const [leg] = flat.legs;
  const away = 5 / scale;
  if (part.kind === 'chip') return placeIn(part, view, (leg?.x ?? 0) - away, leg?.y ?? 0);
  if (part.kind !== 'can') return placeIn(part, view, -flat.width / 2 - away, 0);
  return placeIn(part, view, flat.width * scale > 24 ? -flat.width / 2 + 4.5 / scale : -flat.width / 2 - 4 / scale, 0);
}

const boxRound = ([x, y]: readonly [number, number], size: number): Box => ({
  left: x - size / 2,
  right: x + size / 2,
  top: y - size / 2,
  foot: y + size / 2,
});

function drawFirst(
  part: PlacedPart,
  one: { readonly x: number; readonly y: number },
  [x, y]: readonly [number, number],
  { toX, toY }: View,
): Child {
  const isCan = part.kind === 'can';
  return [
    make(
      'text',
      { x: say(x), y: say(y + 3), 'text-anchor': 'middle', 'font-size': isCan ? '11' : '8.5' },
      isCan ? '+' : '1',
    ),
    isCan
      ? undefined
      : make('rect', {
          x: say(toX(one.x) - 1.6),
          y: say(toY(one.y) - 1.6),
          width: '3.2',
          height: '3.2',
          fill: 'var(--ink)',
        }),
  ];
}

/** What a name leaves free of the outlines beside it. */
const roomInside = 1;

/** A name in its part where it fits, else beside it where nothing else is; on a whole board the smallest go without. */
function drawName(part: PlacedPart, view: View, taken: Box[], [across, down]: readonly [number, number]): Child {
  const { litParts, scale } = view;
  const box = boxIn(part, view);
  const { width: bodyWide, height: bodyHigh } = placeBody(part);
  const [wide, high] = [bodyWide * scale, bodyHigh * scale];
  const [x, y] = [(box.left + box.right) / 2, (box.top + box.foot) / 2];
  const isLit = litParts.has(part.name);
  const weight = isLit ? 'var(--signal)' : undefined;
  // Contacts and legs fill the body of the others.
  for (const size of part.kind === 'plug' || part.kind === 'legs' ? [] : isLit ? [11, 10, 9, 8, 7] : [10, 9, 8, 7]) {
    const long = lengthOf(part.name, size);
    const isUpright = long > wide - 3;
    if (isUpright ? long > high - 3 || size + roomInside > wide : size + roomInside > high) continue;
    const turned = isUpright ? `rotate(-90 ${say(x)} ${say(y)})` : undefined;
    const print =
      part.print !== undefined &&
      lengthOf(part.print, size - 1.5) < (isUpright ? high : wide) - 3 &&
      2 * size < (isUpright ? wide : high)
        ? part.print
        : undefined;
    const up = print === undefined ? size * 0.35 : -size * 0.1;
    const words = { x: say(x), 'text-anchor': 'middle', transform: turned };
    return [
      make('text', { ...words, y: say(y + up), 'font-size': String(size), fill: weight }, part.name),
      print === undefined
        ? undefined
        : make(
            'text',
            { ...words, y: say(y + size * 0.85), 'font-size': String(size - 1.5), fill: 'var(--faint)' },
            print,
          ),
    ];
  }
  for (const size of [8, 7]) {
    const long = lengthOf(part.name, size);
    const gap = 1.5;
    const places: readonly (readonly [number, number])[] = [
      [x, box.top - gap - size / 2],
      [x, box.foot + gap + size / 2],
      [box.right + gap + long / 2, y],
      [box.left - gap - long / 2, y],
    ];
    for (const [atX, atY] of places) {
      const middle = Math.max(long / 2, Math.min(atX, across - long / 2));
      const own = { left: middle - long / 2, right: middle + long / 2, top: atY - size / 2, foot: atY + size / 2 };
      if (own.top < 0 || own.foot > down || !taken.every((other) => areApart(own, other))) continue;
      taken.push(own);
      return make(
        'text',
        { x: say(middle), y: say(atY + size * 0.35), 'text-anchor': 'middle', 'font-size': String(size), fill: weight },
        part.name,
      );
    }
  }
  return undefined;
}

/** The width of a text in the condensed font: half its size a letter, rather more than it takes. */
const lengthOf = (text: string, size: number): number => text.length * size * 0.5;

interface Flagged {
  readonly flag: string;
  readonly places: readonly LitPlace[];
}

/** What is lit: a square on each leg, and over the first a flag on its staff, where no other flag is. */
function drawFlags(lit: readonly Flagged[], [across, down]: readonly [number, number], taken: readonly Box[]): Child {
  const squares = lit.flatMap(({ places }) =>
    places.map(
      ({ x, y, isLeg }) =>
        isLeg &&
        make('rect', {
          x: say(x - 3),
          y: say(y - 3),
          width: '6',
          height: '6',
          fill: 'var(--signal)',
          stroke: 'var(--card)',
          'stroke-width': '1',
        }),
    ),
  );
  const flags: Box[] = [];
  const drawn = lit.map(({ flag, places }) => {
    const [first] = places;
    if (first === undefined) return undefined;
    const { x, y, away } = first;
    const wide = lengthOf(flag, 12) + 8;
    const spots = [8, 16, 26, 38, 52].flatMap((staff) =>
      [-1, 1].flatMap((down) =>
        [1, -1].map((right) => ({
          x: right > 0 ? x : x - wide,
          y: y + down * (away + staff) - (down > 0 ? 0 : 14),
          right,
          staff,
          down,
        })),
      ),
    );
    const boxed = spots.map((spot) => ({
      ...spot,
      box: { left: spot.x, right: spot.x + wide, top: spot.y, foot: spot.y + 14 },
    }));
    const isIn = ({ box }: { readonly box: Box }): boolean =>
      box.left >= 0 && box.right <= across && box.top >= 0 && box.foot <= down;
    const isFree = ({ box }: { readonly box: Box }): boolean => flags.every((other) => areApart(box, other));
    const chosen =
      boxed.find((one) => isIn(one) && isFree(one) && taken.every((other) => areApart(one.box, other))) ??
      boxed.find((one) => isIn(one) && isFree(one)) ??
      boxed[0];
    if (chosen === undefined) return undefined;
    flags.push(chosen.box);
    return [
      make('line', {
        x1: say(x),
        y1: say(y + chosen.down * away),
        x2: say(x),
        y2: say(chosen.down > 0 ? chosen.box.foot : chosen.box.top),
        stroke: 'var(--ink)',
        'stroke-width': '1.6',
      }),
      make('rect', {
        x: say(chosen.box.left),
        y: say(chosen.box.top),
        width: say(wide),
        height: '14',
        fill: 'var(--ink)',
      }),
      make(
        'text',
        {
          x: say(chosen.box.left + wide / 2),
          y: say(chosen.box.top + 11),
          'text-anchor': 'middle',
          'font-size': '12',
          fill: 'var(--paper)',
        },
        flag,
      ),
    ];
  });
  return [squares, drawn];
}

/** What the edges face; only those that are in the picture. */
function sayEdges(board: Board, frame: Frame, foot: number): Child {
  const words = { x: String(width / 2), 'text-anchor': 'middle', 'font-size': '11', fill: 'var(--faint)' };
  const [upper, lower] = board.edges;
  return [
    frame.top === 0 ? make('text', { ...words, y: '11' }, upper) : undefined,
    frame.top + frame.height > board.height - 0.01 ? make('text', { ...words, y: say(foot - 4) }, lower) : undefined,
  ];
}

/** The board small, with the stretch that is drawn and what is lit in it. */
function drawKey(
  board: Board,
  side: BoardSide,
  frame: Frame,
  top: number,
  lit: readonly (readonly [number, number])[],
): Child {
  const scale = Math.min(90 / board.width, 40 / board.height);
  const box = (x: number, y: number, wide: number, high: number, strong: boolean): Markup =>
    make('rect', {
      x: say(1 + x * scale),
      y: say(top + 2 + y * scale),
      width: say(wide * scale),
      height: say(high * scale),
      fill: strong ? 'none' : 'var(--card)',
      stroke: strong ? 'var(--signal)' : 'var(--ink)',
      'stroke-width': strong ? '2' : '1',
    });
  const beside = board.width * scale + 12;
  return [
    box(0, 0, board.width, board.height, false),
    box(frame.left, frame.top, frame.width, frame.height, true),
    lit.map(([x, y]) =>
      make('rect', {
        x: say(x * scale - 0.5),
        y: say(top + 0.5 + y * scale),
        width: '3',
        height: '3',
        fill: 'var(--ink)',
      }),
    ),
    make('text', { x: say(beside), y: say(top + 14), 'font-size': '12' }, board.name),
    make(
      'text',
      { x: say(beside), y: say(top + 29), 'font-size': '11', fill: 'var(--faint)' },
      `${saySide(board, side)}; up: ${board.edges[0]}`,
    ),
  ];
}

/** A place that is lit: a leg, or the middle of a part, whose edge is so far `away`. */
interface LitPlace {
  readonly x: number;
  readonly y: number;
  readonly isLeg: boolean;
  readonly away: number;
}

/** The places that a spot lights, in millimetres: the pins of a part, or its middle. */
function placesOf({ parts }: Board, spot: Spot): readonly LitPlace[] {
  if (!('part' in spot)) return [{ x: spot.x, y: spot.y, isLeg: true, away: 0 }];
  const part = parts.find(({ name }) => name === spot.part);
  if (part === undefined) return [];
  const { legs, height } = placeBody(part);
  const found = spot.pins.flatMap((pin) => legs.filter(({ number }) => number === pin));
  return found.length === 0
    ? [{ x: part.x, y: part.y, isLeg: false, away: height / 2 }]
    : found.map(({ x, y }) => ({ x, y, isLeg: true, away: 0 }));
}

/** The drawing in words: which board and side, and of what is lit where that is and what is next to it. */
function describeBoard(board: Board, side: BoardSide, marks: readonly LitMark[]): string {
  const start = `${board.name}. ${saySide(board, side)}; up: ${board.edges[0]}.`;
  const said = marks.map(({ flag, spots }) => {
    const [place] = spots.flatMap((spot) => placesOf(board, spot));
    if (place === undefined) return '';
    const { x, y } = place;
    const near = nearest(board, spots, x, y);
    return ` ${flag === 'here' ? 'Lit' : `Flag ${flag}`}: ${saySpots(board, spots)}, ${sayThird(board, side === 'solder' ? board.width - x : x, y)}${near.length === 0 ? '' : `, next to ${listWords(near)}`}.`;
  });
  return start + said.join('');
}

function nearest({ parts }: Board, spots: readonly Spot[], x: number, y: number): readonly string[] {
  const own = new Set(spots.map((spot) => ('part' in spot ? spot.part : '')));
  return parts
    .filter(({ name }) => !own.has(name))
    .map((part) => ({ name: part.name, away: distanceTo(part, x, y) }))
    .sort((one, other) => one.away - other.away)
    .slice(0, 2)
    .map(({ name }) => name);
}

function distanceTo(part: PlacedPart, x: number, y: number): number {
  const { left, right, top, foot } = boxOf(part);
  return Math.hypot(Math.max(left - x, 0, x - right), Math.max(top - y, 0, y - foot));
}

const say = (value: number): string => String(Math.round(value * 10) / 10);
const fine = (value: number): string => String(Math.round(value * 100) / 100);

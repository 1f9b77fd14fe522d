/**
 * Where the parts of a unit's boards sit, and which of them its test points are on: the same for the units that are shipped and for a
 * reader's own. Millimetres from the upper left corner of a board, seen from the component side.
 */
export interface Placement {
  readonly boards: readonly Board[];
  /** Slug of points.yaml to its spots. */
  readonly points: Readonly<Record<string, readonly Spot[]>>;
}

export interface Board {
  /** Tells the boxes of a unit apart too: `Disk unit, supply board`. */
  readonly name: string;
  readonly width: number;
  readonly height: number;
  /** What its upper and its lower edge face: `rear`, `front`. */
  readonly edges: readonly [upper: string, lower: string];
  /** From where it is seen, where that is no component side and it has no other: `from behind`. */
  readonly seen?: string | undefined;
  readonly parts: readonly PlacedPart[];
}

export interface PlacedPart {
  /** As printed beside it: `IC5`. Unique over all boards of a unit. */
  readonly name: string;
  readonly kind: PlacedKind;
  /** Pins of a chip, legs in a row; contacts, rows and pitch of a plug; else millimetres: across a can, from leg to leg, of a box. */
  readonly size: readonly number[];
  /** Its centre. */
  readonly x: number;
  readonly y: number;
  readonly turn: Turn;
  /** What is printed on it: `74LS157`. */
  readonly print?: string | undefined;
}

/** Degrees clockwise, from the component side. */
export const turns = [0, 90, 180, 270] as const;
export type Turn = (typeof turns)[number];

/** A place on a part, or beside all parts on a board. */
export type Spot =
  | { readonly part: string; readonly pins: readonly number[] }
  | { readonly board: string; readonly x: number; readonly y: number };

/**
 * Unturned, from above: a chip has its notch up and pin 1 at the upper left; legs in a row have their print or flat face to the lower
 * edge and leg 1 at the left; of a plug in two rows the odd contacts are above; leg 1 of a can, its plus, and of a part with two legs,
 * the band of a diode, is at the left; a box has no legs.
 */
export const placedKinds = ['chip', 'legs', 'plug', 'can', 'two', 'box'] as const;
export type PlacedKind = (typeof placedKinds)[number];

/** Bounds of a drawing: more is no board of a bench, or a file that means harm. */
export const placementLimits = {
  boards: 4,
  parts: 160,
  points: 200,
  spots: 12,
  side: [10, 1000],
  pins: 64,
  name: 16,
  boardName: 40,
} as const;

const pitch = 2.54;

interface Leg {
  readonly number: number;
  readonly x: number;
  readonly y: number;
}

export interface Body {
  readonly width: number;
  readonly height: number;
  readonly legs: readonly Leg[];
}

/**
 * Body and legs of a part about its centre, unturned. Rows of chips are 7.62 mm apart, from 24 pins on 15.24 mm and from 48 on 22.86 mm,
 * pins 2.54 mm: JEDEC MS-001 and MS-011, from memory.
 */
function measureBody({ kind, size: [first = 2, second = first, third = pitch] }: PlacedPart): Body {
  switch (kind) {
    case 'chip': {
      const half = first / 2;
      const row = first >= 48 ? 22.86 : first >= 24 ? 15.24 : 7.62;
      const legs = countTo(first).map((number) => {
        const step = number <= half ? number - 1 : first - number;
        return { number, x: number <= half ? -row / 2 : row / 2, y: (step - (half - 1) / 2) * pitch };
      });
      return { width: row - 1.2, height: half * pitch, legs };
    }
    case 'legs': {
      const legs = countTo(first).map((number) => ({ number, x: (number - (first + 1) / 2) * pitch, y: 0 }));
      return { width: first * pitch + 2.4, height: 4.6, legs };
    }
    case 'plug': {
      const across = Math.ceil(first / second);
      const legs = countTo(first).map((number) => ({
        number,
        x: (Math.floor((number - 1) / second) - (across - 1) / 2) * third,
        y: (((number - 1) % second) - (second - 1) / 2) * pitch,
      }));
      return { width: across * third + 2, height: second * pitch + 3, legs };
    }
    case 'can':
      return { width: first, height: first, legs: makePair(Math.min(first / 4, 5)) };
    case 'two':
      return { width: first * 0.64, height: Math.min(Math.max(first / 4, 2.4), 9), legs: makePair(first / 2) };
    case 'box':
      return { width: first, height: second, legs: [] };
  }
}

const countTo = (count: number): readonly number[] => Array.from({ length: count }, (_, index) => index + 1);

const makePair = (away: number): readonly Leg[] => [
  { number: 1, x: -away, y: 0 },
  { number: 2, x: away, y: 0 },
];

/** Body and legs of a part where it sits on its board: the body's size as it lies, the legs from the board's corner. */
export function placeBody(part: PlacedPart): Body {
  const { width, height, legs } = measureBody(part);
  const isAcross = part.turn === 90 || part.turn === 270;
  return {
    width: isAcross ? height : width,
    height: isAcross ? width : height,
    legs: legs.map(({ number, x, y }) => {
      const [dx, dy] = turnBy(part.turn, x, y);
      return { number, x: part.x + dx, y: part.y + dy };
    }),
  };
}

/** A step from a centre, turned clockwise on a page whose second axis points down. */
export function turnBy(turn: Turn, x: number, y: number): readonly [number, number] {
  if (turn === 90) return [-y, x];
  if (turn === 180) return [-x, -y];
  return turn === 270 ? [y, -x] : [x, y];
}

/** What a part takes up on its board, legs included, or what sticks out over the edge. */
export function boxOf(part: PlacedPart): {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly foot: number;
} {
  const { width, height, legs } = placeBody(part);
  return {
    left: Math.min(part.x - width / 2, ...legs.map(({ x }) => x)),
    top: Math.min(part.y - height / 2, ...legs.map(({ y }) => y)),
    right: Math.max(part.x + width / 2, ...legs.map(({ x }) => x)),
    foot: Math.max(part.y + height / 2, ...legs.map(({ y }) => y)),
  };
}

/** The board that a spot is on; undefined where the drawing has no such part or board. */
export function boardOf({ boards }: Pick<Placement, 'boards'>, spot: Spot): Board | undefined {
  return boards.find(({ name, parts }) =>
    'part' in spot ? parts.some((part) => part.name === spot.part) : name === spot.board,
  );
}

/** Which third of the board, in words: `rear left`, `middle`; told for the component side. */
export function sayThird({ width, height, edges: [upper, lower] }: Board, x: number, y: number): string {
  const down = y < height / 3 ? upper : y > (2 * height) / 3 ? lower : '';
  const across = x < width / 3 ? 'left' : x > (2 * width) / 3 ? 'right' : '';
  return [down, across].filter((word) => word !== '').join(' ') || 'middle';
}

/** What a screen, an oscilloscope or a logic probe shows, as a drawing from data: to compare with what is seen. */
export interface Picture {
  readonly slug: string;
  readonly title: string;
  /** What makes it this one and no other, in a sentence. */
  readonly says: string;
  /** What was looked at, and with what: a heading of the page. */
  readonly seen: SeenAt;
  readonly shown: Trace | Screen | Lamps;
  /** The steps that it leads to, as `tree/node`, or a tree. */
  readonly leads: readonly string[];
}

/** What was looked at, in the order of the page: first what needs no instrument. */
export const seenAt = {
  screen: { with: 'On the screen', title: 'The picture on the screen' },
  supply: { with: 'With an oscilloscope', title: 'Supply rails' },
  clock: { with: 'With an oscilloscope', title: 'Crystal and clock' },
  reset: { with: 'With an oscilloscope', title: 'Reset line at switch-on' },
  bus: { with: 'With an oscilloscope', title: 'Address and data lines' },
  video: { with: 'With an oscilloscope', title: 'Composite video' },
  sound: { with: 'With an oscilloscope', title: 'Sound' },
  serial: { with: 'With an oscilloscope', title: 'Serial line' },
  drive: { with: 'With an oscilloscope', title: 'Disk drive' },
  keys: { with: 'With an oscilloscope', title: 'Keyboard lines' },
  probe: { with: 'With a logic probe', title: 'The lamps of the probe' },
} as const;
export type SeenAt = keyof typeof seenAt;

/** An oscillogram of ten by six divisions. */
export interface Trace {
  readonly kind: 'trace';
  /** Per division. */
  readonly volts: number;
  /** Seconds per division. */
  readonly time: number;
  readonly coupling: 'dc' | 'ac';
  /** Divisions from the foot of the graticule to 0 V. */
  readonly zero: number;
  /** What is seen is the sum of these. */
  readonly shapes: readonly Shape[];
}

/** A shape over time; seconds, volts and hertz throughout. */
export type Shape =
  /** Straight lines from point to point, again after each period where one is given. */
  | {
      readonly kind: 'lines';
      readonly points: readonly (readonly [seconds: number, volts: number])[];
      readonly period: number | undefined;
    }
  /** A sine wave, cut at the limits where it reaches them; within `gap` of its middle it stays there. */
  | {
      readonly kind: 'sine';
      readonly mean: number;
      readonly amplitude: number;
      readonly hertz: number;
      readonly top: number | undefined;
      readonly foot: number | undefined;
      readonly gap: number;
    }
  /** A square wave with edges that take their time. */
  | {
      readonly kind: 'square';
      readonly low: number;
      readonly high: number;
      readonly hertz: number;
      readonly duty: number;
      readonly edge: number;
    }
  /** A reservoir that is filled so often a second from mains of so many hertz, and emptied between. */
  | {
      readonly kind: 'ripple';
      readonly top: number;
      readonly trough: number;
      readonly hertz: number;
      readonly mains: number;
    }
  /** A capacitor that is charged from one level to another, beginning at a time. */
  | {
      readonly kind: 'charge';
      readonly from: number;
      readonly to: number;
      readonly tau: number;
      readonly begins: number;
    }
  /** Levels one after the other, each so long: a byte on a line, the bits of a bus. */
  | {
      readonly kind: 'bits';
      readonly low: number;
      readonly high: number;
      readonly seconds: number;
      readonly levels: string;
      readonly edge: number;
    }
  /** Hash without a shape, the same every time. */
  | { readonly kind: 'noise'; readonly amplitude: number };

/** A screen of 32 by 24 cells, tiled from rows that are repeated: `#` light, `+` half, `.` dark. */
export interface Screen {
  readonly kind: 'screen';
  readonly rows: readonly string[];
  /** How far each row is moved to the right, repeated. */
  readonly shifts: readonly number[];
  /** The first row shown: a picture that has rolled up by so many. */
  readonly rolled: number;
  /** A dark frame round the cells. */
  readonly border: boolean;
  /** The share of cells that are turned over, 0 to 1, the same ones every time. */
  readonly noise: number;
}

/** The lamps of a logic probe. */
export interface Lamps {
  readonly kind: 'lamps';
  readonly high: LampState;
  readonly low: LampState;
  readonly pulse: LampState;
}
export const lampStates = ['on', 'dim', 'blinks', 'off'] as const;
export type LampState = (typeof lampStates)[number];

/** Divisions of the graticule. */
export const across = 10;
export const upward = 6;

/** The settings of an oscilloscope that shows the trace: `0.5 V/div, 10 ms/div, dc`. */
export function saySettings({ volts, time, coupling }: Trace): string {
  return `${sayScaled(volts, 'V')}/div, ${sayScaled(time, 's')}/div, ${coupling}`;
}

/** 0.005 V is 5 mV: the prefix that leaves a number from 1 to 999; volts from 0.1 on stay volts. */
function sayScaled(value: number, unit: 'V' | 's'): string {
  if (unit === 'V' && value >= 0.1) return `${value} V`;
  const [prefix, factor] = prefixes.find(([, size]) => value >= size * 0.9999) ?? ['n', 1e-9];
  return `${Number((value / factor).toPrecision(3))} ${prefix}${unit}`;
}

const prefixes: readonly (readonly [string, number])[] = [
  ['', 1],
  ['m', 1e-3],
  ['µ', 1e-6],
  ['n', 1e-9],
];

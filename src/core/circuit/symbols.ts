/** How a part is drawn, lying to the right; lengths in units of the drawing, pins in steps of its grid. */
export interface PartSymbol {
  /** What it is called in words. */
  readonly says: string;
  /** Where its pins end, in the order of a netlist; its place in a drawing is where the first one ends. */
  readonly pins: readonly (readonly [x: number, y: number])[];
  /** What each pin is called where the two ends of the part differ. */
  readonly pinNames: readonly string[];
  /** Left, top, right, bottom of the drawn body. */
  readonly body: readonly [left: number, top: number, right: number, bottom: number];
  /** The lines of it, leads included where all its pins are always joined. */
  readonly path: string;
  /** What of it is filled. */
  readonly filled?: string;
  /** The lines of a lead that is drawn only where its pin is joined, one for each pin. */
  readonly leads?: readonly string[];
  /** Words stand inside; else beside a part that stands, above and below one that lies. */
  readonly isRoomy?: boolean;
  /** What of its value is printed: that of the part, that alone without a name, or nothing where it only stands for something. */
  readonly value: 'beside' | 'alone' | 'none';
  /** The letter of the only elements whose value suits it. */
  readonly of?: string;
  /** Its pins differ, so that an element lies in it as the netlist has it. */
  readonly isPolar?: boolean;
}

/** Steps of the grid in units of the drawing. */
export const step = 10;

/** Steps that a drawing may be wide: no more can be read on a telephone. */
export const widest = 36;

const ends = [
  [0, 0],
  [4, 0],
] as const;
const plain = { pins: ends, pinNames: [], value: 'beside' } as const;
const diode = {
  ...plain,
  isPolar: true,
  pinNames: ['anode', 'cathode'],
  body: [12, -8, 28, 8],
  filled: 'M13 -7V7L27 0z',
} as const;
/** Left, right, top and bottom of a box six steps wide and four high. */
const aroundBox = [
  [0, 0],
  [8, 0],
  [4, -3],
  [4, 3],
] as const;
const throughGate = [
  [0, 0],
  [6, 0],
] as const;
const gate = {
  pins: throughGate,
  pinNames: ['input', 'output'],
  body: [10, -15, 50, 15],
  leads: ['M0 0H10', 'M50 0H60'],
  value: 'none',
} as const;
const transistor = {
  isPolar: true,
  pins: [
    [3, -2],
    [0, 0],
    [3, 2],
  ],
  pinNames: ['collector', 'base', 'emitter'],
  body: [10, -15, 35, 15],
  value: 'none',
} as const;

/**
 * The symbols of a drawing in the outlines that IEC 60617 gives them, from common knowledge of it: a rectangle resists, two plates hold
 * charge, a triangle and a bar let through one way.
 */
export const partSymbols = {
  resistor: { ...plain, says: 'resistor', body: [8, -5, 32, 5], path: 'M0 0H8V-5H32V5H8V0M32 0H40' },
  capacitor: {
    ...plain,
    says: 'capacitor',
    of: 'C',
    body: [17, -10, 23, 10],
    path: 'M0 0H17M17 -10V10M23 -10V10M23 0H40',
  },
  electrolytic: {
    ...plain,
    says: 'polarised capacitor',
    isPolar: true,
    of: 'C',
    pinNames: ['plus', 'minus'],
    body: [8, -10, 23, 10],
    path: 'M0 0H17M17 -10V10M23 -10V10M23 0H40M8 -6H14M11 -9V-3',
  },
  coil: {
    ...plain,
    says: 'coil',
    body: [6, -4, 34, 2],
    path: 'M0 0H6a3.5 3.5 0 0 1 7 0a3.5 3.5 0 0 1 7 0a3.5 3.5 0 0 1 7 0a3.5 3.5 0 0 1 7 0H40',
  },
  winding: {
    ...plain,
    says: 'transformer winding',
    body: [0, -1, 40, 30],
    path:
      'M0 0H6a3.5 3.5 0 0 0 7 0a3.5 3.5 0 0 0 7 0a3.5 3.5 0 0 0 7 0a3.5 3.5 0 0 0 7 0H40M4 9.5H36' +
      'M6 30V19a3.5 3.5 0 0 1 7 0a3.5 3.5 0 0 1 7 0a3.5 3.5 0 0 1 7 0a3.5 3.5 0 0 1 7 0V30',
  },
  source: {
    ...plain,
    says: 'source of voltage',
    body: [8, -12, 32, 12],
    path: 'M0 0H8a12 12 0 0 1 24 0a12 12 0 0 1 -24 0M32 0H40M20 6q-5 -3 0 -6t0 -6',
  },
  diode: { ...diode, says: 'diode', path: 'M0 0H13M27 0H40M27 -8V8' },
  zener: { ...diode, says: 'Zener diode', path: 'M0 0H13M27 0H40M22 -8H27V8' },
  thyristor: {
    ...diode,
    says: 'thyristor',
    body: [12, -8, 36, 12],
    path: 'M0 0H13M27 0H40M27 -8V8M27 2L36 11',
    value: 'none',
  },
  npn: {
    ...transistor,
    says: 'npn transistor',
    path: 'M0 0H16M16 -10V10M16 -5L30 -13V-20M16 5L30 13V20',
    filled: 'M29 12.5L21 11.8L24.6 6.2z',
  },
  pnp: {
    ...transistor,
    says: 'pnp transistor',
    path: 'M0 0H16M16 -10V10M16 -5L30 -13V-20M16 5L30 13V20',
    filled: 'M17 5.5L25 6.2L21.4 11.8z',
  },
  fuse: { ...plain, says: 'fuse', body: [8, -5, 32, 5], path: 'M0 0H40M8 -5H32V5H8z', value: 'none' },
  link: {
    ...plain,
    says: 'link or contact',
    body: [9, -3, 31, 3],
    path: 'M0 0H9a3 3 0 0 0 6 0a3 3 0 0 0 -6 0M15 0H25a3 3 0 0 0 6 0a3 3 0 0 0 -6 0M31 0H40',
    value: 'none',
  },
  switch: {
    ...plain,
    says: 'switch, open at rest',
    body: [10, -13, 30, 1],
    path: 'M0 0H11L28 -12M29 0H40',
    value: 'none',
  },
  button: {
    ...plain,
    says: 'key, open at rest',
    body: [10, -17, 30, 1],
    path: 'M0 0H11L28 -9M29 0H40M20 -5V-16M15 -16H25',
    value: 'none',
  },
  closed: {
    ...plain,
    says: 'switch, closed at rest',
    body: [10, -8, 30, 1],
    path: 'M0 0H11L31 -7M28 -8V0H40',
    value: 'none',
  },
  loudspeaker: {
    ...plain,
    says: 'loudspeaker',
    body: [10, -19, 30, 6],
    path: 'M0 0H13M27 0H40M13 -6H27V6H13zM13 -6L7 -19H33L27 -6',
  },
  potentiometer: {
    says: 'potentiometer',
    pins: [
      [0, 0],
      [2, -2],
      [4, 0],
    ],
    pinNames: ['top', 'wiper', 'foot'],
    body: [8, -12, 32, 5],
    path: 'M0 0H8V-5H32V5H8V0M32 0H40M20 -20V-6',
    filled: 'M20 -5l-3.5 -7h7z',
    value: 'none',
  },
  amplifier: { ...gate, says: 'amplifier', body: [10, -20, 50, 20], path: 'M10 -20V20L50 0z' },
  gate: { ...gate, says: 'gate', path: 'M10 -15H50V15H10zM27 -3L31 -6V6' },
  inverter: {
    ...gate,
    says: 'inverter',
    path: 'M10 -15H44V15H10zM25 -3L29 -6V6M44 0a3 3 0 0 0 6 0a3 3 0 0 0 -6 0',
  },
  schmitt: { ...gate, says: 'Schmitt gate', path: 'M10 -15H50V15H10zM22 5H32V-5M38 -5H28V5' },
  'op-amp': {
    says: 'operational amplifier',
    isPolar: true,
    pins: [
      [0, 0],
      [0, 2],
      [3, -2],
      [3, 4],
      [6, 1],
    ],
    pinNames: ['plus input', 'minus input', 'plus supply', 'minus supply', 'output'],
    body: [10, -12, 50, 32],
    path: 'M10 -12V32L50 10zM13 0H19M16 -3V3M13 20H19',
    leads: ['M0 0H10', 'M0 20H10', 'M30 -20V-1', 'M30 40V21', 'M50 10H60'],
    value: 'none',
  },
  opto: {
    says: 'opto-isolator',
    isPolar: true,
    pins: [
      [0, 0],
      [0, 4],
      [8, 0],
      [8, 4],
    ],
    pinNames: ['anode', 'cathode', 'collector', 'emitter'],
    body: [10, -8, 70, 48],
    path: 'M10 -8H70V48H10zM0 0H24V40H0M17 27H31M80 0H64V6L50 15M50 8V32M50 25L64 34V40H80M33 18H43M33 24H43',
    filled: 'M17 14H31L24 27zM46 18l-5 -2.5v5zM46 24l-5 -2.5v5zM63 33.5l-8 -1l3.8 -5.5z',
    value: 'none',
  },
  regulator: {
    says: 'regulator',
    isPolar: true,
    pins: [
      [0, 0],
      [8, 0],
      [4, 3],
    ],
    pinNames: ['input', 'output', 'ground'],
    body: [10, -20, 70, 20],
    path: 'M0 0H10M70 0H80M40 20V30M10 -20H70V20H10z',
    isRoomy: true,
    value: 'none',
  },
  box: {
    says: 'circuit as a box',
    pins: aroundBox,
    pinNames: ['left', 'right', 'top', 'bottom'],
    body: [10, -20, 70, 20],
    path: 'M10 -20H70V20H10z',
    leads: ['M0 0H10', 'M70 0H80', 'M40 -30V-20', 'M40 20V30'],
    isRoomy: true,
    value: 'none',
  },
  load: {
    says: 'what draws the current',
    pins: [
      [0, 0],
      [6, 0],
    ],
    pinNames: [],
    body: [10, -28, 50, 28],
    path: 'M0 0H10M50 0H60M10 -28H50V28H10z',
    isRoomy: true,
    value: 'beside',
  },
  supply: {
    says: 'supply',
    pins: [[0, 0]],
    pinNames: [],
    body: [0, -6, 12, 6],
    path: 'M0 0H12M12 -6V6',
    value: 'alone',
  },
  terminal: {
    says: 'terminal',
    pins: [[0, 0]],
    pinNames: [],
    body: [0, -3, 7, 3],
    path: 'M0 0H1a3 3 0 0 0 6 0a3 3 0 0 0 -6 0',
    value: 'none',
  },
} as const satisfies Readonly<Record<string, PartSymbol>>;

export type SymbolName = keyof typeof partSymbols;

/** The symbol of an element that names none, by its first letter. */
export const usualSymbols: Readonly<Record<string, SymbolName>> = {
  R: 'resistor',
  C: 'capacitor',
  L: 'coil',
  D: 'diode',
  V: 'source',
  Q: 'npn',
};

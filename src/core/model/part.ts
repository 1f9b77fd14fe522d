import type { Status } from './target.ts';

/** A chip, regulator, transistor, rectifier, plug or socket: which pin does what. */
export interface Part {
  readonly slug: string;
  readonly title: string;
  readonly family: PartFamily;
  /** Numbers of other parts with the same pins. */
  readonly aliases: readonly string[];
  readonly package: PartPackage;
  /** Slug of sources.yaml. */
  readonly source: string;
  /** Name in the symbol set it was compared with, where that has it. */
  readonly symbol: string | undefined;
  /** In the order of their numbers. */
  readonly pins: readonly Pin[];
  /** Parts that are taken for this one, and what then goes wrong. */
  readonly mistaken: readonly { readonly part: string; readonly says: string }[];
}

export interface Pin {
  /** `1` to the last; on a jack `T`, `R`, `S`; a sign or a letter of the drawing where a leg bears no number. */
  readonly number: string;
  readonly name: string;
  readonly kind: PinKind;
  /** Where its name and kind come from, if not from the part's own source. */
  readonly status: Status | undefined;
  readonly doubt: string | undefined;
}

/** What a reader says once of a unit, so that its pins are drawn: which processor, memory, regulator or plug it has. */
export interface Chip {
  readonly slug: string;
  readonly title: string;
  /** The question, and how the answer is read on the board. */
  readonly ask: string;
  readonly tell: string;
  /** The parts to choose from: whole families, or parts by slug. */
  readonly families: readonly PartFamily[];
  readonly parts: readonly string[];
}

/** The parts that a chip of a unit can be, in the order of the library. */
export function partsOf(chip: Chip, parts: Iterable<Part>): readonly Part[] {
  return [...parts].filter(({ slug, family }) => chip.parts.includes(slug) || chip.families.includes(family));
}

/** Where a test point lies: its function on a chip of the unit, or on a part that is the same everywhere. */
export interface PointPins {
  /** Slug of chips.yaml. */
  readonly chip: string | undefined;
  readonly part: string | undefined;
  /** Names of functions: the first that the part has is read. */
  readonly read: readonly string[];
  /** Or every one that the part has. */
  readonly all: readonly string[];
  /** Or groups of functions that a loop joins. */
  readonly joins: readonly (readonly string[])[];
  /** No pin of this kind, whatever it is called. */
  readonly never: PinKind | undefined;
  /** Names or numbers: the first that the part has takes the other lead. */
  readonly ground: readonly string[];
  /** From where it is probed. */
  readonly side: 'component' | 'solder';
}

/** The parts that a test point can lie on: the one that is the same everywhere, or all that the chip can be. */
export function partsAt(
  { chip, part }: Pick<PointPins, 'chip' | 'part'>,
  { parts, chips }: { readonly parts: ReadonlyMap<string, Part>; readonly chips: ReadonlyMap<string, Chip> },
): readonly Part[] {
  const fixed = parts.get(part ?? '');
  const named = chips.get(chip ?? '');
  return [...(fixed === undefined ? [] : [fixed]), ...(named === undefined ? [] : partsOf(named, parts.values()))];
}

export interface FoundPins {
  /** Empty where the part has no such pin. */
  readonly read: readonly Pin[];
  readonly ground: Pin | undefined;
  /** Pins to be joined, group by group; all of them are in `read`. */
  readonly joins: readonly (readonly Pin[])[];
}

/** The pins of a part at a test point. A ground that is in doubt is not taken while another is sure. */
export function findPins({ pins }: Pick<Part, 'pins'>, at: PointPins): FoundPins {
  const names = new Map(pins.map((pin) => [pin, namesOf(pin)]));
  const isCalled = (pin: Pin, name: string): boolean => names.get(pin)?.includes(name) === true;
  const wanted = pins.filter(({ kind }) => kind !== at.never);
  const named = (name: string): readonly Pin[] => wanted.filter((pin) => isCalled(pin, name));
  const first =
    at.read
      .map(named)
      .find(({ length }) => length > 0)
      ?.slice(0, 1) ?? [];
  const joins = at.joins.map((joined) => joined.flatMap((name) => named(name).slice(0, 1)));
  const all = [...at.all, ...at.joins.flat()];
  const read = all.length > 0 ? pins.filter((pin) => all.some((name) => named(name).includes(pin))) : first;
  const grounds = at.ground
    .map((name) => pins.filter((pin) => pin.number === name || isCalled(pin, name)))
    .find(({ length }) => length > 0);
  const ground = grounds?.findLast(({ doubt }) => doubt === undefined) ?? grounds?.at(-1);
  return { read, ground: ground !== undefined && read.includes(ground) ? undefined : ground, joins };
}

/** What a pin is called, without its active level; what stands in brackets behind it is a name too: `ground (tab)`. */
function namesOf({ name }: Pin): readonly string[] {
  const [, plain = name, inBrackets] = /^([^()]*?)(?: \(([^()]*)\))?$/.exec(name) ?? [];
  return [name, plain.replace(/ active (?:low|high)$/, ''), ...(inBrackets === undefined ? [] : [inBrackets])];
}

export const pinKinds = [
  'input',
  'output',
  'bidirectional',
  'open-collector',
  'power',
  'ground',
  'passive',
  'not-connected',
] as const;
export type PinKind = (typeof pinKinds)[number];

/** What the parts are for, in the order of the list, with its heading. */
export const partFamilies = {
  regulator: 'Regulators',
  rectifier: 'Bridge rectifiers',
  transistor: 'Transistors',
  processor: 'Processors',
  peripheral: 'Ports, serial and picture chips',
  memory: 'Memories',
  rom: 'ROMs and EPROMs',
  gate: 'Gates and inverters',
  'flip-flop': 'Flip-flops, counters, registers',
  selector: 'Decoders and selectors',
  buffer: 'Bus drivers and latches',
  switch: 'Analogue switches',
  amplifier: 'Amplifiers',
  comparator: 'Comparators',
  timer: 'Timers',
  opto: 'Opto-couplers',
  line: 'Serial drivers and receivers',
  plug: 'Plugs and sockets',
  discrete: 'Capacitors, controls, windings',
} as const;
export type PartFamily = keyof typeof partFamilies;

const inTwoRows = 'From above, notch up: down the left side, up the right side.';

/** How many pins each package has, and how they are counted on it. */
export const partPackages = {
  'dip-4': { pins: 4, counted: 'From above, notch or dot at pin 1. The signs on the body decide.' },
  'dip-6': { pins: 6, counted: inTwoRows },
  'dip-8': { pins: 8, counted: inTwoRows },
  'dip-14': { pins: 14, counted: inTwoRows },
  'dip-16': { pins: 16, counted: inTwoRows },
  'dip-18': { pins: 18, counted: inTwoRows },
  'dip-20': { pins: 20, counted: inTwoRows },
  'dip-24': { pins: 24, counted: inTwoRows },
  'dip-28': { pins: 28, counted: inTwoRows },
  'dip-40': { pins: 40, counted: inTwoRows },
  'dip-64': { pins: 64, counted: inTwoRows },
  'to-220': { pins: 3, counted: 'Print towards you, legs down: from the left. The tab is joined to the middle leg.' },
  'to-220-5': { pins: 5, counted: 'Print towards you, legs down: from the left.' },
  'to-126': { pins: 3, counted: 'Print towards you, legs down: from the left.' },
  'to-92': { pins: 3, counted: 'Flat face towards you, legs down: from the left.' },
  'sil-4': { pins: 4, counted: 'Print towards you, legs down: from the left. The signs on the body decide.' },
  'to-18': { pins: 3, counted: 'From below: from the tab, clockwise.' },
  'to-39': { pins: 3, counted: 'From below: from the tab, clockwise.' },
  'to-100': { pins: 10, counted: 'From below: 10 is at the tab, 1 is next to it clockwise.' },
  'to-3': {
    pins: 3,
    counted:
      'From below, the legs nearer the upper hole: 1 left, 2 right, the case is 3. A meter from each leg to the case confirms it.',
  },
  'round-4': { pins: 4, counted: 'Plus and minus face each other. The signs on the body decide.' },
  'block-4': { pins: 4, counted: 'Plus and minus face each other across the corners. The signs on the body decide.' },
  'din-5': { pins: 5, counted: 'Along the arc the pins run 1, 4, 2, 5, 3. The numbers moulded beside them decide.' },
  'dsub-9': { pins: 9, counted: 'The numbers moulded beside the pins decide.' },
  'dsub-25': { pins: 25, counted: 'The numbers moulded beside the pins decide.' },
  'header-34': {
    pins: 34,
    counted: 'Odd pins along one row, even along the other. A triangle or a 1 on the board marks pin 1.',
  },
  'power-4': {
    pins: 4,
    counted: 'The two middle pins are ground. Measure both outer ones against them before you join anything.',
  },
  'av-21': {
    pins: 21,
    counted: 'Odd pins along one row, even along the other; 21 is the shell. The moulded numbers decide.',
  },
  barrel: { pins: 3, counted: 'Which contact is plus stands on the label of the brick; measure it.' },
  'coax-2': { pins: 2, counted: 'The middle carries the signal, the ring is ground.' },
  'upright-2': { pins: 2, counted: 'The stripe of minus signs stands beside the minus leg.' },
  'bead-2': { pins: 2, counted: 'A plus or a dot stands beside the plus leg.' },
  'axial-2': { pins: 2, counted: 'Either way round.' },
  'pot-3': { pins: 3, counted: 'Shaft towards you, tags down: from the left. The middle one is the wiper.' },
  'speaker-2': { pins: 2, counted: 'A dot or a plus on the frame marks one tag.' },
  'crystal-2': { pins: 2, counted: 'Two legs, no right way round: follow each to its pin of the gate.' },
  'rc-node': { pins: 3, counted: 'Follow the resistor from 5 V to where the capacitor meets it.' },
  transformer: { pins: 2, counted: 'The thick wires, on the side away from the mains lead.' },
  'mains-plug': { pins: 3, counted: 'Pulled out of the wall. Its shape differs by country.' },
  'cell-2': { pins: 2, counted: 'The signs on the cell or its holder decide.' },
  'switch-2': { pins: 2, counted: 'Either way round.' },
  jack: {
    pins: undefined,
    counted: 'Tip, ring and sleeve are the metal of the plug; N marks a contact that opens with a plug in.',
  },
} as const;
export type PartPackage = keyof typeof partPackages;

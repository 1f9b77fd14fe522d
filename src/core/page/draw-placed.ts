import type { PartPackage, Pin } from '../model/part.ts';
import { type Drawn, type DrawnPart, leadOf, type Probed } from './leads.ts';
import { type Child, make, type Markup } from './markup.ts';

type Spot = readonly [x: number, y: number];

/** How a part is drawn whose pins stand in no row beside a body: its outline, and where each contact lies. */
interface Layout {
  readonly height: number;
  /** Filled outlines, then thin lines inside them. */
  readonly body: string;
  readonly lines?: string;
  /** Where each pin lies, in the order of the part’s pins. */
  readonly spots: readonly Spot[];
  /** Half the width of a contact. */
  readonly size?: number;
  /** Words that belong to the outline, with their place. */
  readonly words?: readonly (readonly [x: number, y: number, words: string])[];
  /** From where it is seen, and from where mirrored; an arrangement has one view. */
  readonly views?: readonly [string, string];
}

const middle = 170;
const fromAbove = ['from above', 'from the solder side'] as const;

function circle(x: number, y: number, radius: number): string {
  return `M${x - radius} ${y}a${radius} ${radius} 0 1 0 ${radius * 2} 0a${radius} ${radius} 0 1 0 ${radius * -2} 0z`;
}

function spread(first: number, step: number, count: number, y: number): readonly Spot[] {
  return Array.from({ length: count }, (_, place) => [first + place * step, y] as const);
}

/**
 * Outlines of D-sub plugs, of the metal can with two legs and of bridges: the open footprint set of the Debian package
 * kicad-footprints 6.0.11 (which hole bears which number). The others are arrangements: they show what to look for, not a size.
 */
const layouts: Partial<Record<PartPackage, Layout>> = {
  'to-3': {
    height: 176,
    body: `M${middle - 12} 16Q${middle} 4 ${middle + 12} 16L222 70Q232 88 222 106L${middle + 12} 160Q${middle} 172 ${middle - 12} 160L118 106Q108 88 118 70z`,
    lines: circle(middle, 88, 46) + circle(middle, 22, 8) + circle(middle, 154, 8),
    spots: [
      [146, 78],
      [194, 78],
      [middle, 154],
    ],
    words: [
      [36, 26, 'nearer hole up'],
      [36, 40, 'legs above'],
      [36, 54, 'the middle'],
    ],
    views: ['from below', 'from above'],
  },
  'round-4': {
    height: 128,
    body: circle(middle, 64, 54),
    spots: [
      [146, 40],
      [146, 88],
      [194, 88],
      [194, 40],
    ],
    views: fromAbove,
  },
  'block-4': {
    height: 128,
    body: 'M136 12H222V116H118V30z',
    lines: circle(middle, 64, 12),
    spots: [
      [142, 36],
      [142, 92],
      [198, 92],
      [198, 36],
    ],
    views: fromAbove,
  },
  'dsub-9': {
    height: 126,
    body: 'M92 26H248Q258 26 256 36L246 92Q244 100 236 100H104Q96 100 94 92L84 36Q82 26 92 26z',
    spots: [...spread(110, 30, 5, 52), ...spread(125, 30, 4, 74)],
    views: ['pins, from their face', 'holes, from their face; pins, from behind'],
  },
  'dsub-25': {
    height: 126,
    body: 'M24 26H316Q326 26 324 36L314 92Q312 100 304 100H36Q28 100 26 92L16 36Q14 26 24 26z',
    spots: [...spread(38, 22, 13, 52), ...spread(49, 22, 12, 74)],
    size: 4,
    views: ['pins, from their face', 'holes, from their face; pins, from behind'],
  },
  'din-5': {
    height: 138,
    body: circle(middle, 70, 56),
    lines: `M${middle - 10} 126v-12h20v12`,
    spots: [
      [132, 70],
      [middle, 32],
      [208, 70],
      [143, 43],
      [197, 43],
    ],
    views: ['socket, from its face', 'plug, from its face; socket, from behind'],
  },
  'power-4': {
    height: 104,
    body: 'M76 24H264L274 34V84H66V34z',
    spots: spread(95, 50, 4, 56),
    size: 10,
    views: ['wires behind', 'from the wires'],
  },
  barrel: {
    height: 128,
    body: circle(120, 64, 50) + 'M206 54H300V62H206z',
    lines: circle(120, 64, 40),
    spots: [
      [120, 64],
      [120, 24],
      [290, 58],
    ],
    views: ['from the opening', 'from behind'],
  },
  'coax-2': {
    height: 128,
    body: circle(middle, 64, 48),
    lines: circle(middle, 64, 38) + circle(middle, 64, 16),
    spots: [
      [middle, 64],
      [middle, 112],
    ],
    views: ['from the opening', 'from behind'],
  },
  'upright-2': {
    height: 146,
    body: 'M120 20Q120 10 130 10H210Q220 10 220 20V104H120z',
    lines: 'M198 10V104M203 30h12M203 56h12M203 82h12',
    spots: [
      [146, 122],
      [204, 122],
    ],
    words: [[92, 60, 'stripe: −']],
    views: ['print towards you', 'from the other side'],
  },
  'bead-2': {
    height: 146,
    body: 'M170 12Q222 14 218 64Q214 100 186 104H154Q126 100 122 64Q118 14 170 12z',
    lines: 'M138 62h16M146 54v16',
    spots: [
      [152, 122],
      [190, 122],
    ],
    views: ['print towards you', 'from the other side'],
  },
  'axial-2': {
    height: 84,
    body: 'M112 26H228V62H112z',
    lines: 'M60 44H112M228 44H280M128 26V62M144 26V62M160 26V62',
    spots: [
      [60, 44],
      [280, 44],
    ],
  },
  'pot-3': {
    height: 150,
    body: `${circle(middle, 60, 50)}M126 98h16v28h-16zM162 104h16v22h-16zM198 98h16v28h-16z`,
    lines: `${circle(middle, 60, 14)}M140 34A40 40 0 0 1 200 34M200 34l-11 -3M200 34l1 -11`,
    spots: [
      [134, 130],
      [middle, 130],
      [206, 130],
    ],
    words: [
      [middle, 64, 'shaft'],
      [252, 34, 'louder'],
    ],
    views: ['shaft towards you', 'from behind'],
  },
  'speaker-2': {
    height: 128,
    body: circle(130, 64, 56) + 'M200 36h34v56h-34z',
    lines: `${circle(130, 64, 26)}M186 64h14`,
    spots: [
      [226, 48],
      [226, 80],
    ],
    views: ['from behind', 'from the front'],
  },
  'crystal-2': {
    height: 138,
    body: 'M146 16L206 42L146 68z' + circle(213, 42, 7) + 'M156 92h28v34h-28z',
    lines: 'M146 42H96V109H146M220 42H254V109H194M146 92V126M194 92V126',
    spots: [
      [96, 109],
      [254, 109],
    ],
    words: [
      [162, 46, 'gate'],
      [48, 76, 'gate input'],
      [296, 76, 'gate output'],
    ],
  },
  'rc-node': {
    height: 150,
    body: 'M104 20h22v44h-22z',
    lines:
      'M115 8V20M115 64V96M95 96h40M95 106h40M115 106V132M101 132h28M106 137h18M111 142h8M115 80H196M196 58L250 80L196 102zM250 80H280',
    spots: [
      [115, 80],
      [115, 118],
      [280, 80],
    ],
    words: [
      [160, 16, '+5 V'],
      [70, 46, 'resistor'],
      [60, 106, 'capacitor'],
      [217, 84, 'gate'],
    ],
  },
  transformer: {
    height: 146,
    body: 'M110 14H230V132H110z',
    lines:
      'M150 14V132M190 14V132M110 30l-40 -8M110 44l-40 -8M110 58l-40 -8M110 72l-40 -8M110 86l-40 -8M110 100l-40 -8M110 114l-40 -8M70 16V116',
    spots: [
      [246, 48],
      [246, 98],
    ],
    words: [
      [36, 62, 'mains'],
      [36, 78, 'side:'],
      [36, 94, 'keep off'],
      [292, 76, 'thick wires'],
    ],
  },
  'mains-plug': {
    height: 128,
    body: 'M112 16H228V112H112z',
    spots: [
      [140, 84],
      [200, 84],
      [middle, 40],
    ],
    size: 8,
  },
  'cell-2': {
    height: 96,
    body: 'M96 26H244V76H96zM244 40h12v22h-12z',
    spots: [
      [264, 51],
      [82, 51],
    ],
  },
  'switch-2': {
    height: 110,
    body: 'M120 14H220V70H120z',
    lines: 'M146 70V92M194 70V92M142 46H156L190 32M184 46H200',
    spots: [
      [146, 92],
      [194, 92],
    ],
  },
};

/** A jack as its plug: tip, ring, sleeve along its length; break contacts below what they touch. */
function layOutJack(pins: readonly Pin[]): Layout {
  const hasRing = pins.some(({ number }) => number === 'R');
  const along: Readonly<Record<string, number>> = { T: 276, R: 226, S: hasRing ? 176 : 216 };
  return {
    height: 130,
    body: 'M20 26H112V74H20zM112 36H252Q262 36 266 42L284 44Q296 50 284 56L266 58Q262 64 252 64H112z',
    lines: `M250 36V64M256 36V64${hasRing ? 'M200 36V64M206 36V64' : ''}`,
    spots: pins.map(({ number }) => [along[number[0] ?? ''] ?? 60, number.length > 1 ? 96 : 50]),
    views: ['the plug that goes in', 'the plug that goes in'],
  };
}

export function isPlaced(body: PartPackage): boolean {
  return body === 'jack' || layouts[body] !== undefined;
}

/** Draws such a part, with a key below: which contact is which, marked by number, shape and word. */
export function drawPlaced(part: DrawnPart, isMirrored: boolean, probed: Probed | undefined): Drawn | undefined {
  const layout = part.package === 'jack' ? layOutJack(part.pins) : layouts[part.package];
  if (layout === undefined) return undefined;
  const flip = (x: number): number => (isMirrored && layout.views !== undefined ? middle * 2 - x : x);
  const turned = flip(0) === 0 ? undefined : `translate(${middle * 2} 0) scale(-1 1)`;
  const outline = make(
    'g',
    { transform: turned },
    make('path', { class: 'body', d: layout.body }),
    layout.lines !== undefined && make('path', { class: 'detail', d: layout.lines }),
  );
  const words = (layout.words ?? []).map(([x, y, text]) => drawText(flip(x), y, 'label small', text, 'middle'));
  const contacts = part.pins.map((pin, place) => {
    const [x, y] = layout.spots[place] ?? [middle, 10];
    return drawContact(pin, [flip(x), y], layout, probed);
  });
  const spotOf = (pin: Pin): Spot => layout.spots[part.pins.indexOf(pin)] ?? [middle, 10];
  const wires = (probed?.joins ?? []).flatMap((pins) =>
    pins.slice(1).map((pin, place) => drawWire(spotOf(pins[place] ?? pin), spotOf(pin), flip)),
  );
  const keyed = part.pins.filter((pin) => (probed === undefined ? part.pins.length <= 5 : leadOf(pin, probed)));
  const foot = Math.max(layout.height, ...keyed.map((pin) => lowestOf(pin, spotOf(pin), layout, probed)));
  const rows = keyed.map((pin, row) => drawKey(pin, foot + 14 + row * 18, probed));
  const view = layout.views?.[isMirrored ? 1 : 0];
  const height = foot + 4 + keyed.length * 18 + (view === undefined ? 0 : 18);
  return {
    height,
    children: [
      outline,
      words,
      contacts,
      wires,
      rows,
      view !== undefined && drawText(middle * 2 - 4, height - 4, 'label small beside', view, 'end'),
    ],
  };
}

function drawText(x: number, y: number, style: string, words: string, anchor: 'start' | 'middle' | 'end'): Markup {
  return make('text', { class: style, x: String(x), y: String(y), 'text-anchor': anchor }, words);
}

/** Its sign where it has one, else its number. */
function signOf({ number, name }: Pin): string {
  if (!/^[1-9]$/.test(number)) return number;
  if (name.startsWith('plus ')) return '+';
  if (name.startsWith('minus ')) return '−';
  return name.startsWith('alternating ') ? '~' : number;
}

const leadLength = 22;

/** Where a lead ends that leaves a contact downwards: the key begins below it. */
function lowestOf(pin: Pin, [, y]: Spot, { height, size = 6 }: Layout, probed: Probed | undefined): number {
  const isLed = probed !== undefined && probed.joins.length === 0 && leadOf(pin, probed) !== undefined;
  return isLed && y >= height / 2 ? y + size + leadLength : 0;
}

/** A lead leaves the contact away from the middle of the drawing; its number stands on that side too. */
function drawContact(pin: Pin, [x, y]: Spot, { height, size = 6 }: Layout, probed: Probed | undefined): Child {
  const lead = probed && leadOf(pin, probed);
  const away = y < height / 2 ? -1 : 1;
  const end = y + away * size;
  return [
    lead !== undefined &&
      probed?.joins.length === 0 &&
      make('path', { class: `lead ${lead}`, d: `M${x} ${end}v${away * leadLength}` }),
    make('path', { class: `pin ${lead ?? ''}`.trim(), d: shapeOf(lead, x, y, size) }),
    drawText(
      lead === undefined ? x : x + 7,
      lead === undefined ? y + (away < 0 ? -size - 3 : size + 12) : end + away * 12 + 4,
      lead === undefined ? 'number small' : 'number probed',
      signOf(pin),
      lead === undefined ? 'middle' : 'start',
    ),
  ];
}

/** A wire of a loop, bent so that it passes over no contact between its ends. */
function drawWire([x, y]: Spot, [toX, toY]: Spot, flip: (x: number) => number): Markup {
  const bend = y === toY ? (y < 60 ? -30 : 30) : 0;
  const [turnX, turnY] = [flip((x + toX) / 2), (y + toY) / 2 + bend];
  return make('path', { class: 'detail lead wire', d: `M${flip(x)} ${y}Q${turnX} ${turnY} ${flip(toX)} ${toY}` });
}

/** What is read is square, what takes the ground a diamond, the others round: known apart without colour. */
function shapeOf(lead: 'read' | 'ground' | undefined, x: number, y: number, size: number): string {
  if (lead === undefined) return circle(x, y, size);
  if (lead === 'read') return `M${x - size} ${y - size}h${size * 2}v${size * 2}h${size * -2}z`;
  return `M${x} ${y - size - 1}l${size + 1} ${size + 1}l${-size - 1} ${size + 1}l${-size - 1} ${-size - 1}z`;
}

function drawKey(pin: Pin, y: number, probed: Probed | undefined): Child {
  const lead = probed && leadOf(pin, probed);
  const sign = signOf(pin);
  const [read, ground] = probed?.leads ?? ['', ''];
  const isJoined = (probed?.joins.length ?? 0) > 0;
  const said = lead === undefined || isJoined ? '' : lead === 'read' ? `${read}: ` : `${ground}: `;
  return [
    make('path', { class: `pin ${lead ?? ''}`.trim(), d: shapeOf(lead, 28, y - 4, 5) }),
    make(
      'text',
      { class: 'label', x: '42', y: String(y) },
      said !== '' && make('tspan', { class: 'lead-name' }, said),
      `${sign} ${pin.name}`,
    ),
  ];
}

import { type Part, partPackages, type Pin } from '../model/part.ts';
import { type Child, make, type Markup } from './markup.ts';

/** Which lead goes to which pin. */
export interface Lead {
  /** Number of a pin of the part. */
  readonly pin: string;
  readonly lead: 'red' | 'black';
}

export interface PartDrawing {
  /** From the component side or, mirrored, from the solder side. */
  readonly side?: 'component' | 'solder';
  /** With leads only the stretch of a long row that matters is drawn; without, every pin with its name. */
  readonly leads?: readonly Lead[];
}

const width = 340;
const pitch = 20;
const leadWords = { red: 'Red lead', black: 'Black lead' } as const;
/** Pins shown on each side of one that a lead goes to. */
const neighbours = 2;

/**
 * Draws a part's pins as SVG, 340 units wide, for `figure.css` to style: lines and text only, no colour of its own. The
 * reader is told the same by the element's label. Undefined where the package is not drawn; the table of pins serves then.
 */
export function drawPart(part: Part, { side = 'component', leads = [] }: PartDrawing = {}): Markup | undefined {
  const drawn = drawBody(part, side, leads);
  if (drawn === undefined) return undefined;
  return make(
    'svg',
    {
      class: 'part',
      role: 'img',
      viewBox: `0 0 ${width} ${drawn.height}`,
      width: String(width),
      height: String(drawn.height),
      'aria-label': describePart(part, side, leads),
    },
    drawn.children,
  );
}

/** The drawing in words. */
export function describePart(part: Part, side: 'component' | 'solder', leads: readonly Lead[]): string {
  const view =
    side === 'solder' ? 'Seen from the solder side, everything mirrored.' : partPackages[part.package].counted;
  const said = leads.map(({ pin, lead }) => {
    const found = part.pins.find(({ number }) => number === pin);
    return `${leadWords[lead]} to pin ${pin}${found === undefined ? '' : `, ${found.name}`}.`;
  });
  return [`Pins of the ${part.title}.`, view, ...said].join(' ');
}

interface Drawn {
  readonly height: number;
  readonly children: readonly Child[];
}

function drawBody(part: Part, side: 'component' | 'solder', leads: readonly Lead[]): Drawn | undefined {
  const isMirrored = side === 'solder';
  switch (part.package) {
    case 'to-220':
    case 'to-220-5':
    case 'to-126':
    case 'to-92':
    case 'sil-4':
      return drawLegs(part, isMirrored, leads);
    case 'to-18':
    case 'to-39':
    case 'to-100':
      return drawCan(part, isMirrored, leads);
    // Its two pins look alike in any drawing, and a wrong guess is worse than a meter.
    case 'to-3':
    case 'dsub-9':
    case 'dsub-25':
    case 'din-5':
    case 'av-21':
    case 'jack':
    case 'round-4':
    case 'block-4':
    case 'power-4':
      return undefined;
    case 'header-34':
      return drawRows(part, { isMirrored, leads, left: odd(part.pins), right: even(part.pins), hasNotch: false });
    default: {
      const half = part.pins.length / 2;
      const [left, right] = [part.pins.slice(0, half), part.pins.slice(half).toReversed()];
      return drawRows(part, { isMirrored, leads, left, right, hasNotch: true });
    }
  }
}

function odd(pins: readonly Pin[]): readonly Pin[] {
  return pins.filter((_, place) => place % 2 === 0);
}

function even(pins: readonly Pin[]): readonly Pin[] {
  return pins.filter((_, place) => place % 2 === 1);
}

interface Rows {
  readonly isMirrored: boolean;
  readonly leads: readonly Lead[];
  readonly left: readonly Pin[];
  readonly right: readonly Pin[];
  readonly hasNotch: boolean;
}

/** Two rows of pins: a chip in its usual package, or a header. */
function drawRows(part: Part, { isMirrored, leads, left, right, hasNotch }: Rows): Drawn {
  const [first, second] = isMirrored ? [right, left] : [left, right];
  const count = Math.max(first.length, second.length);
  const shown = leads.length === 0 ? [...Array(count).keys()] : listRows(first, second, leads);
  const bodyWidth = leads.length === 0 ? 72 : 96;
  const bodyLeft = (width - bodyWidth) / 2;
  const bodyRight = bodyLeft + bodyWidth;
  const children: Child[] = [];
  let top = 24;
  const levels: number[] = [];
  let before = -1;
  for (const row of shown) {
    if (row !== before + 1) {
      children.push(drawBreak(bodyLeft, bodyRight, top - pitch / 2 + 4));
      top += 8;
    }
    levels.push(top);
    top += pitch;
    before = row;
  }
  const height = top - pitch / 2 + 12;
  shown.forEach((row, place) => {
    const level = levels[place] ?? 0;
    for (const [pin, edge, away] of [
      [first[row], bodyLeft, -1],
      [second[row], bodyRight, 1],
    ] as const) {
      if (pin !== undefined) children.push(drawSidePin(pin, edge, away, level, leads));
    }
  });
  const middle = width / 2;
  const foot = height - 8;
  const body = make('path', {
    class: 'body',
    d: `M${bodyLeft} 8${hasNotch ? `h${bodyWidth / 2 - 8}a8 8 0 0 0 16 0` : ''}H${bodyRight}V${foot}H${bodyLeft}z`,
  });
  const name = make(
    'text',
    {
      class: 'name',
      x: String(middle),
      y: String((8 + foot) / 2),
      transform: `rotate(-90 ${middle} ${(8 + foot) / 2})`,
    },
    nameOf(part),
  );
  return {
    height: height + (isMirrored ? 16 : 0),
    children: [body, children, name, isMirrored && drawSide(height + 16)],
  };
}

/** Rows that matter: the first with its notch, the last, and those around each lead. */
function listRows(first: readonly Pin[], second: readonly Pin[], leads: readonly Lead[]): readonly number[] {
  const last = Math.max(first.length, second.length) - 1;
  const rows = new Set([0, last]);
  for (let row = 0; row <= last; row++) {
    const isMarked = leads.some(({ pin }) => first[row]?.number === pin || second[row]?.number === pin);
    for (let near = row - neighbours; isMarked && near <= row + neighbours; near++) {
      if (near >= 0 && near <= last) rows.add(near);
    }
  }
  // A gap of one row is no shorter than the row.
  for (let row = 1; row < last; row++) if (rows.has(row - 1) && rows.has(row + 1)) rows.add(row);
  return [...rows].toSorted((one, other) => one - other);
}

/** Two slanting lines across the body: rows are left out here. */
function drawBreak(left: number, right: number, level: number): Markup {
  const line = (by: number): string => `M${left - 6} ${level + by + 4}L${right + 6} ${level + by - 4}`;
  return make('path', { class: 'break', d: `${line(-3)}${line(3)}` });
}

function drawSidePin(pin: Pin, edge: number, away: 1 | -1, level: number, leads: readonly Lead[]): Child {
  const lead = leads.find((one) => one.pin === pin.number);
  const tip = edge + away * 12;
  const stub = make('path', {
    class: lead === undefined ? 'pin' : `pin ${lead.lead}`,
    d: `M${edge} ${level - 4}H${tip}V${level + 4}H${edge}z`,
  });
  const anchor = away < 0 ? 'end' : 'start';
  const number = make(
    'text',
    { class: 'number', x: String(edge - away * 4), y: String(level + 4), 'text-anchor': away < 0 ? 'start' : 'end' },
    pin.number,
  );
  if (leads.length === 0) {
    return [stub, number, drawName(pin, tip + away * 4, level, anchor)];
  }
  return [stub, number, lead !== undefined && drawLead(lead, pin, tip, away, level)];
}

/** The longest name that fits beside the body on one line; longer ones take two. */
const mostLetters = 24;

function drawName(pin: Pin, x: number, level: number, anchor: 'start' | 'end' | 'middle'): Child {
  const { words, isBarred } = nameOnDrawing(pin);
  const lines = words.length <= mostLetters ? [words] : breakInTwo(words);
  const size = lines.length > 1 ? 'label small' : 'label';
  return lines.map((line, place) =>
    make(
      'text',
      {
        class: isBarred ? `${size} barred` : size,
        x: String(x),
        y: String(level + 4 + (place - (lines.length - 1) / 2) * 9),
        'text-anchor': anchor,
      },
      line,
    ),
  );
}

/** What is active low has a line over its name, as on any sheet. */
function nameOnDrawing({ name }: Pin): { readonly words: string; readonly isBarred: boolean } {
  const words = name.replace(/ active low\b/, '');
  return { words: words.replace(/ active high\b/, ''), isBarred: words !== name };
}

function breakInTwo(words: string): readonly string[] {
  const middle = words.length / 2;
  let cut = -1;
  for (let place = words.indexOf(' '); place >= 0; place = words.indexOf(' ', place + 1)) {
    if (cut < 0 || Math.abs(place - middle) < Math.abs(cut - middle)) cut = place;
  }
  return cut < 0 ? [words] : [words.slice(0, cut), words.slice(cut + 1)];
}

/** A lead: a full line for red, a broken one for black, its word and the pin. */
function drawLead({ lead }: Lead, pin: Pin, tip: number, away: 1 | -1, level: number): Child {
  const end = tip + away * 26;
  const anchor = away < 0 ? 'end' : 'start';
  const x = String(end + away * 4);
  const { words, isBarred } = nameOnDrawing(pin);
  return [
    make('path', { class: `lead ${lead}`, d: `M${tip} ${level}H${end}` }),
    make('text', { class: 'lead-word', x, y: String(level - 1), 'text-anchor': anchor }, leadWords[lead]),
    make(
      'text',
      { class: isBarred ? 'label barred' : 'label', x, y: String(level + 11), 'text-anchor': anchor },
      words.length > mostLetters ? `${words.slice(0, mostLetters - 1)}…` : words,
    ),
  ];
}

/** Three to five legs in a row under a body, seen with the print or the flat face in front. */
function drawLegs(part: Part, isMirrored: boolean, leads: readonly Lead[]): Drawn {
  const pins = isMirrored ? part.pins.toReversed() : part.pins;
  const step = pins.length > 3 ? 64 : 104;
  const start = width / 2 - ((pins.length - 1) / 2) * step;
  const bodyTop = part.package.startsWith('to-220') ? 44 : 14;
  const bodyFoot = bodyTop + 62;
  const [left, right] = [start - 26, start + (pins.length - 1) * step + 26];
  const tab = part.package.startsWith('to-220') && [
    make('path', { class: 'body', d: `M${left} ${bodyTop}V12H${right}V${bodyTop}z` }),
    make('circle', { class: 'hole', cx: String(width / 2), cy: '28', r: '9' }),
  ];
  const body = make('path', { class: 'body', d: `M${left} ${bodyTop}H${right}V${bodyFoot}H${left}z` });
  const name = make('text', { class: 'name', x: String(width / 2), y: String(bodyTop + 36) }, nameOf(part));
  const foot = bodyFoot + 34;
  const legs = pins.map((pin, place) => {
    const x = start + place * step;
    const lead = leads.find((one) => one.pin === pin.number);
    const { words } = nameOnDrawing(pin);
    const lines = words.length <= (step > 80 ? 18 : 11) ? [words] : breakInTwo(words);
    return [
      make('path', {
        class: lead === undefined ? 'pin' : `pin ${lead.lead}`,
        d: `M${x - 5} ${bodyFoot}V${foot}H${x + 5}V${bodyFoot}z`,
      }),
      make('text', { class: 'number', x: String(x), y: String(bodyFoot - 6), 'text-anchor': 'middle' }, pin.number),
      lines.map((line, row) =>
        make('text', { class: 'label', x: String(x), y: String(foot + 14 + row * 13), 'text-anchor': 'middle' }, line),
      ),
      lead !== undefined &&
        make(
          'text',
          { class: 'lead-word', x: String(x), y: String(foot + 14 + lines.length * 13), 'text-anchor': 'middle' },
          leadWords[lead.lead],
        ),
    ];
  });
  const height = foot + 14 + 26 + (leads.length > 0 ? 14 : 0);
  return {
    height: height + (isMirrored ? 16 : 0),
    children: [tab, body, name, legs, isMirrored && drawSide(height + 16)],
  };
}

/** A round metal can seen from below, its tab up; from above it is mirrored. */
function drawCan(part: Part, isMirrored: boolean, leads: readonly Lead[]): Drawn {
  const [x, y, radius] = [width / 2, 100, 58];
  const count = part.pins.length;
  // Three legs stand on a half circle away from the tab, ten all round it with the last at the tab.
  const angleOf = (place: number): number => (count === 3 ? -45 + place * 90 : -90 + (place + 1) * 36);
  const marks = part.pins.map((pin, place) => {
    const turn = (angleOf(place) * Math.PI) / 180;
    const across = (isMirrored ? -1 : 1) * Math.cos(turn);
    const [pinX, pinY] = [x + across * radius * 0.55, y + Math.sin(turn) * radius * 0.55];
    const lead = leads.find((one) => one.pin === pin.number);
    const anchor = Math.abs(across) < 0.3 ? 'middle' : across < 0 ? 'end' : 'start';
    const labelY = y + Math.sin(turn) * (radius + 16) + 4;
    const { words, isBarred } = nameOnDrawing(pin);
    const text = `${lead === undefined ? '' : `${leadWords[lead.lead]}: `}${words}`;
    return [
      make('circle', {
        class: lead === undefined ? 'pin' : `pin ${lead.lead}`,
        cx: String(Math.round(pinX)),
        cy: String(Math.round(pinY)),
        r: '6',
      }),
      make(
        'text',
        {
          class: 'number',
          x: String(Math.round(pinX - across * 14)),
          y: String(Math.round(pinY - Math.sin(turn) * 14 + 4)),
          'text-anchor': 'middle',
        },
        pin.number,
      ),
      make(
        'text',
        {
          class: isBarred ? 'label barred' : 'label',
          x: String(Math.round(x + across * (radius + 10))),
          y: String(Math.round(labelY)),
          'text-anchor': anchor,
        },
        text,
      ),
    ];
  });
  const tab = make('path', { class: 'body', d: `M${x - 8} ${y - radius - 10}h16v14h-16z` });
  const body = make('circle', { class: 'body', cx: String(x), cy: String(y), r: String(radius) });
  return { height: 190, children: [tab, body, marks, drawView(190, isMirrored ? 'from above' : 'from below')] };
}

function drawSide(height: number): Markup {
  return drawView(height, 'from the solder side');
}

function drawView(height: number, words: string): Markup {
  return make('text', { class: 'label', x: String(width - 4), y: String(height - 4), 'text-anchor': 'end' }, words);
}

/** The number on the body: the title's first word or two. */
function nameOf({ title }: Part): string {
  return title.split(/[ ,]/)[0] ?? title;
}

import { partPackages, type Pin } from '../model/part.ts';
import { drawPlaced, isPlaced } from './draw-placed.ts';
import { type Drawn, type DrawnPart, leadOf, type Probed, sayProbed } from './leads.ts';
import { type Child, make, type Markup } from './markup.ts';

/** From which side a part is seen: the component side or, mirrored, the solder side. */
type Side = 'component' | 'solder';

const width = 340;
const pitch = 20;

/**
 * Draws a part's pins as SVG, 340 units wide, for `figure.css` to style: lines and text only, no colour of its own. Where it is
 * `probed`, the leads are drawn, and of two rows only the stretch that matters and the ends to count from. The reader is told the
 * same by the element's label. Undefined where the package is not drawn; the table of pins serves then.
 */
export function drawPart(part: DrawnPart, side: Side, probed?: Probed): Markup | undefined {
  const drawn = drawBody(part, side === 'solder', probed);
  if (drawn === undefined) return undefined;
  const view = [
    side === 'solder' ? 'Seen from the solder side, everything mirrored.' : partPackages[part.package].counted,
    ...(probed === undefined ? [] : [sayProbed(probed)]),
  ].join(' ');
  return make(
    'svg',
    {
      class: 'part',
      role: 'img',
      viewBox: `0 0 ${width} ${drawn.height}`,
      width: String(width),
      height: String(drawn.height),
      'aria-label': `Pins of the ${part.title}. ${view}`,
    },
    drawn.children,
  );
}

function drawBody(part: DrawnPart, isMirrored: boolean, probed: Probed | undefined): Drawn | undefined {
  if (isPlaced(part.package)) return drawPlaced(part, isMirrored, probed);
  switch (part.package) {
    case 'to-220':
    case 'to-220-5':
    case 'to-126':
    case 'to-92':
    case 'sil-4':
      return drawLegs(part, isMirrored, probed);
    case 'to-18':
    case 'to-39':
    case 'to-100':
      return drawCan(part, isMirrored, probed);
    // Its moulded numbers decide; no drawing of it could be checked.
    case 'av-21':
      return undefined;
    case 'header-34':
      return drawRows(part, { isMirrored, left: odd(part.pins), right: even(part.pins), hasNotch: false, probed });
    default: {
      const half = part.pins.length / 2;
      const [left, right] = [part.pins.slice(0, half), part.pins.slice(half).toReversed()];
      return drawRows(part, { isMirrored, left, right, hasNotch: true, probed });
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
  readonly left: readonly Pin[];
  readonly right: readonly Pin[];
  readonly hasNotch: boolean;
  readonly probed: Probed | undefined;
}

/** Two rows of pins: a chip in its usual package, or a header. */
function drawRows(part: DrawnPart, { isMirrored, left, right, hasNotch, probed }: Rows): Drawn {
  const [first, second] = isMirrored ? [right, left] : [left, right];
  const bodyWidth = 72;
  const bodyLeft = (width - bodyWidth) / 2;
  const bodyRight = bodyLeft + bodyWidth;
  const middle = width / 2;
  const shown = listShown(first, second, probed);
  const foot = 28 + (shown.length - 1) * pitch;
  const rows = shown.flatMap((row, place) => (row === 'gap' ? [] : [{ row, level: 24 + place * pitch }]));
  const sides = rows.flatMap(({ row, level }): readonly SidePin[] =>
    [first, second].flatMap((column, side) => {
      const pin = column[row];
      return pin === undefined
        ? []
        : [{ pin, level, edge: side === 0 ? bodyLeft : bodyRight, away: side === 0 ? -1 : 1 }];
    }),
  );
  const outlines = make('path', { class: 'pin', d: sides.map(outlineOf).join('') });
  const gaps = shown.map((row, place) => row === 'gap' && drawGap(bodyLeft, bodyRight, 24 + place * pitch));
  const body = make('path', {
    class: 'body',
    d: `M${bodyLeft} 8${hasNotch ? `h${bodyWidth / 2 - 8}a8 8 0 0 0 16 0` : ''}H${bodyRight}V${foot + 10}H${bodyLeft}z`,
  });
  const name = make(
    'text',
    { class: 'name', x: String(middle), y: String(foot / 2 + 9), transform: `rotate(-90 ${middle} ${foot / 2 + 9})` },
    nameOf(part),
  );
  return finish(foot + 18, [body, outlines, sides.map((side) => drawSidePin(side, probed)), gaps, name], isMirrored);
}

/** A pin at one edge of a body; `away` points out of it. */
interface SidePin {
  readonly pin: Pin;
  readonly level: number;
  readonly edge: number;
  readonly away: 1 | -1;
}

function outlineOf({ level, edge, away }: SidePin): string {
  return `M${edge} ${level - 4}h${away * 12}v8h${away * -12}z`;
}

/** The rows of pins that are drawn, from the notch on; `gap` where some are left out. The ends stay, to count from. */
function listShown(
  first: readonly Pin[],
  second: readonly Pin[],
  probed: Probed | undefined,
): readonly (number | 'gap')[] {
  const all = first.map((_, row) => row);
  if (probed === undefined) return all;
  const isNear = (row: number): boolean =>
    [-1, 0, 1].some((step) =>
      [first[row + step], second[row + step]].some((pin) => pin && leadOf(pin, probed) !== undefined),
    );
  const isKept = (row: number): boolean => row === 0 || row === first.length - 1 || isNear(row);
  return all.flatMap((row): readonly (number | 'gap')[] => {
    if (isKept(row)) return [row];
    // One row left out is no shorter than the mark for it.
    if (isKept(row - 1) && isKept(row + 1)) return [row];
    return isKept(row - 1) ? ['gap'] : [];
  });
}

/** Both edges of the body are broken where rows are left out. */
function drawGap(left: number, right: number, level: number): Child {
  return [left, right].map((x) =>
    make('path', { class: 'gap', d: `M${x - 6} ${level - 2}l12 -6M${x - 6} ${level + 8}l12 -6` }),
  );
}

function drawSidePin(side: SidePin, probed: Probed | undefined): Child {
  const { pin, level, edge, away } = side;
  const tip = edge + away * 12;
  const anchor = away < 0 ? 'end' : 'start';
  const lead = probed && leadOf(pin, probed);
  return [
    lead !== undefined && make('path', { class: `pin ${lead}`, d: outlineOf(side) }),
    make(
      'text',
      {
        class: lead === undefined ? 'number' : 'number probed',
        x: String(edge - away * 4),
        y: String(level + 4),
        'text-anchor': away < 0 ? 'start' : 'end',
      },
      pin.number,
    ),
    lead !== undefined && make('path', { class: `lead ${lead}`, d: `M${tip} ${level}h${away * 22}` }),
    drawName(pin, tip + away * (lead === undefined ? 4 : 26), level, anchor, probed),
  ];
}

/** The longest name that fits beside the body on one line; longer ones take two. */
const mostLetters = 24;

function drawName(pin: Pin, x: number, level: number, anchor: 'start' | 'end', probed: Probed | undefined): Child {
  const { words, isBarred } = nameOnDrawing(pin);
  const lead = probed && leadOf(pin, probed);
  const said = sayLead(lead, probed);
  if (said !== undefined)
    return [said, words].map((line, place) =>
      make(
        'text',
        {
          class: place === 0 ? 'label lead-name' : isBarred ? 'label small barred' : 'label small',
          x: String(x),
          y: String(level - 1 + place * 11),
          'text-anchor': anchor,
        },
        line,
      ),
    );
  const lines = words.length <= mostLetters ? [words] : breakInTwo(words);
  const size = [
    lines.length > 1 ? 'label small' : 'label',
    ...(isBarred ? ['barred'] : []),
    ...(probed !== undefined && lead === undefined ? ['beside'] : []),
  ].join(' ');
  return lines.map((line, place) =>
    make(
      'text',
      {
        class: size,
        x: String(x),
        y: String(level + 4 + (place - (lines.length - 1) / 2) * 9),
        'text-anchor': anchor,
      },
      line,
    ),
  );
}

/** The lead's own name, where it goes to one pin alone: beside several the names of the pins have the room. */
function sayLead(lead: 'read' | 'ground' | undefined, probed: Probed | undefined): string | undefined {
  if (probed === undefined || lead === undefined) return undefined;
  if (lead === 'ground') return probed.leads[1];
  return probed.read.length === 1 ? probed.leads[0] : undefined;
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

/** Three to five legs in a row under a body, seen with the print or the flat face in front. */
function drawLegs(part: DrawnPart, isMirrored: boolean, probed: Probed | undefined): Drawn {
  const pins = isMirrored ? part.pins.toReversed() : part.pins;
  const step = pins.length > 3 ? 64 : 104;
  const start = width / 2 - ((pins.length - 1) / 2) * step;
  const hasTab = part.package.startsWith('to-220');
  const bodyTop = hasTab ? 44 : 14;
  const bodyFoot = bodyTop + 62;
  const foot = bodyFoot + 34;
  const [left, right] = [start - 26, start + (pins.length - 1) * step + 26];
  const tab = hasTab && [
    make('path', { class: 'body', d: `M${left} ${bodyTop}V12H${right}V${bodyTop}z` }),
    make('circle', { class: 'hole', cx: String(width / 2), cy: '28', r: '9' }),
  ];
  const body = make('path', { class: 'body', d: `M${left} ${bodyTop}H${right}V${bodyFoot}H${left}z` });
  const name = make('text', { class: 'name', x: String(width / 2), y: String(bodyTop + 36) }, nameOf(part));
  const legs = pins.map((pin, place) => {
    const x = start + place * step;
    const { words } = nameOnDrawing(pin);
    const lead = probed && leadOf(pin, probed);
    const said = sayLead(lead, probed);
    const named = words.length <= (step > 80 ? 18 : 11) ? [words] : breakInTwo(words);
    const lines = said === undefined ? named : [said, ...named];
    return [
      make('path', {
        class: lead === undefined ? 'pin' : `pin ${lead}`,
        d: `M${x - 5} ${bodyFoot}V${foot}H${x + 5}V${bodyFoot}z`,
      }),
      make('text', { class: 'number', x: String(x), y: String(bodyFoot - 6), 'text-anchor': 'middle' }, pin.number),
      lines.map((line, row) =>
        make(
          'text',
          {
            class: said !== undefined && row === 0 ? 'label lead-name' : 'label',
            x: String(x),
            y: String(foot + 14 + row * 13),
            'text-anchor': 'middle',
          },
          line,
        ),
      ),
    ];
  });
  return finish(foot + (probed === undefined ? 40 : 46), [tab, body, name, legs], isMirrored);
}

/** A round metal can seen from below, its tab up; from above it is mirrored. */
function drawCan(part: DrawnPart, isMirrored: boolean, probed: Probed | undefined): Drawn {
  const [x, y, radius] = [width / 2, 100, 58];
  const count = part.pins.length;
  // Three legs stand on a half circle away from the tab, ten all round it with the last at the tab.
  const angleOf = (place: number): number => (count === 3 ? -45 + place * 90 : -90 + (place + 1) * 36);
  const marks = part.pins.map((pin, place) => {
    const turn = (angleOf(place) * Math.PI) / 180;
    const across = (isMirrored ? -1 : 1) * Math.cos(turn);
    const [pinX, pinY] = [x + across * radius * 0.55, y + Math.sin(turn) * radius * 0.55];
    const anchor = Math.abs(across) < 0.3 ? 'middle' : across < 0 ? 'end' : 'start';
    const labelY = y + Math.sin(turn) * (radius + 16) + 4;
    const { words, isBarred } = nameOnDrawing(pin);
    const lead = probed && leadOf(pin, probed);
    return [
      make('circle', {
        class: lead === undefined ? 'pin' : `pin ${lead}`,
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
          class: isBarred ? 'label barred' : lead === undefined ? 'label' : 'label lead-name',
          x: String(Math.round(x + across * (radius + 10))),
          y: String(Math.round(labelY)),
          'text-anchor': anchor,
        },
        [sayLead(lead, probed), words].filter((text) => text !== undefined).join(': '),
      ),
    ];
  });
  const tab = make('path', { class: 'body', d: `M${x - 8} ${y - radius - 10}h16v14h-16z` });
  const body = make('circle', { class: 'body', cx: String(x), cy: String(y), r: String(radius) });
  return { height: 190, children: [tab, body, marks, drawView(190, isMirrored ? 'from above' : 'from below')] };
}

/** With room below for the word that it is mirrored. */
function finish(height: number, children: readonly Child[], isMirrored: boolean): Drawn {
  if (!isMirrored) return { height, children };
  return { height: height + 16, children: [...children, drawView(height + 16, 'from the solder side')] };
}

function drawView(height: number, words: string): Markup {
  return make('text', { class: 'label', x: String(width - 4), y: String(height - 4), 'text-anchor': 'end' }, words);
}

/** The number on the body: the title's first word or two. */
function nameOf({ title }: DrawnPart): string {
  return title.split(/[ ,]/)[0] ?? title;
}

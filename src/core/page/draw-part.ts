import { type Part, partPackages, type Pin } from '../model/part.ts';
import { type Child, make, type Markup } from './markup.ts';

/** From which side a part is seen: the component side or, mirrored, the solder side. */
type Side = 'component' | 'solder';

const width = 340;
const pitch = 20;

/**
 * Draws a part's pins as SVG, 340 units wide, for `figure.css` to style: lines and text only, no colour of its own. The
 * reader is told the same by the element's label. Undefined where the package is not drawn; the table of pins serves then.
 */
export function drawPart(part: Part, side: Side): Markup | undefined {
  const drawn = drawBody(part, side === 'solder');
  if (drawn === undefined) return undefined;
  const view =
    side === 'solder' ? 'Seen from the solder side, everything mirrored.' : partPackages[part.package].counted;
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

interface Drawn {
  readonly height: number;
  readonly children: readonly Child[];
}

function drawBody(part: Part, isMirrored: boolean): Drawn | undefined {
  switch (part.package) {
    case 'to-220':
    case 'to-220-5':
    case 'to-126':
    case 'to-92':
    case 'sil-4':
      return drawLegs(part, isMirrored);
    case 'to-18':
    case 'to-39':
    case 'to-100':
      return drawCan(part, isMirrored);
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
      return drawRows(part, { isMirrored, left: odd(part.pins), right: even(part.pins), hasNotch: false });
    default: {
      const half = part.pins.length / 2;
      const [left, right] = [part.pins.slice(0, half), part.pins.slice(half).toReversed()];
      return drawRows(part, { isMirrored, left, right, hasNotch: true });
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
}

/** Two rows of pins: a chip in its usual package, or a header. */
function drawRows(part: Part, { isMirrored, left, right, hasNotch }: Rows): Drawn {
  const [first, second] = isMirrored ? [right, left] : [left, right];
  const bodyWidth = 72;
  const bodyLeft = (width - bodyWidth) / 2;
  const bodyRight = bodyLeft + bodyWidth;
  const middle = width / 2;
  const foot = 28 + (first.length - 1) * pitch;
  const pins = first.map((pin, row) => {
    const level = 24 + row * pitch;
    const other = second[row];
    return [drawSidePin(pin, bodyLeft, -1, level), other !== undefined && drawSidePin(other, bodyRight, 1, level)];
  });
  const body = make('path', {
    class: 'body',
    d: `M${bodyLeft} 8${hasNotch ? `h${bodyWidth / 2 - 8}a8 8 0 0 0 16 0` : ''}H${bodyRight}V${foot + 10}H${bodyLeft}z`,
  });
  const name = make(
    'text',
    { class: 'name', x: String(middle), y: String(foot / 2 + 9), transform: `rotate(-90 ${middle} ${foot / 2 + 9})` },
    nameOf(part),
  );
  return finish(foot + 18, [body, pins, name], isMirrored);
}

function drawSidePin(pin: Pin, edge: number, away: 1 | -1, level: number): Child {
  const tip = edge + away * 12;
  return [
    make('path', { class: 'pin', d: `M${edge} ${level - 4}H${tip}V${level + 4}H${edge}z` }),
    make(
      'text',
      { class: 'number', x: String(edge - away * 4), y: String(level + 4), 'text-anchor': away < 0 ? 'start' : 'end' },
      pin.number,
    ),
    drawName(pin, tip + away * 4, level, away < 0 ? 'end' : 'start'),
  ];
}

/** The longest name that fits beside the body on one line; longer ones take two. */
const mostLetters = 24;

function drawName(pin: Pin, x: number, level: number, anchor: 'start' | 'end'): Child {
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

/** Three to five legs in a row under a body, seen with the print or the flat face in front. */
function drawLegs(part: Part, isMirrored: boolean): Drawn {
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
    const lines = words.length <= (step > 80 ? 18 : 11) ? [words] : breakInTwo(words);
    return [
      make('path', { class: 'pin', d: `M${x - 5} ${bodyFoot}V${foot}H${x + 5}V${bodyFoot}z` }),
      make('text', { class: 'number', x: String(x), y: String(bodyFoot - 6), 'text-anchor': 'middle' }, pin.number),
      lines.map((line, row) =>
        make('text', { class: 'label', x: String(x), y: String(foot + 14 + row * 13), 'text-anchor': 'middle' }, line),
      ),
    ];
  });
  return finish(foot + 40, [tab, body, name, legs], isMirrored);
}

/** A round metal can seen from below, its tab up; from above it is mirrored. */
function drawCan(part: Part, isMirrored: boolean): Drawn {
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
    return [
      make('circle', { class: 'pin', cx: String(Math.round(pinX)), cy: String(Math.round(pinY)), r: '6' }),
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
        words,
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
function nameOf({ title }: Part): string {
  return title.split(/[ ,]/)[0] ?? title;
}

import {
  degreesOf,
  dotsOf,
  extentOf,
  flagOf,
  groundBox,
  roomOf,
  symbolOf,
  typeSize,
  type Words,
  wordsOf,
} from '../circuit/drawing.ts';
import { step, widest } from '../circuit/symbols.ts';
import type { Drawing, DrawnElement, Place, PointFlag } from '../model/circuit.ts';
import { type Child, make, type Markup } from './markup.ts';

/** All drawings are as wide as the widest may be, so that their parts are of one size on a page of any width. */
const width = widest * step + 6;

/**
 * A circuit as SVG, all in the ink of the text: the parts as a picture, which the words beside it tell, and each point's flag as a link
 * to its table. Red leads have a square flag, black ones
 * one that stands on its corner, as where the pins of a part are drawn.
 */
export function drawCircuit(
  drawing: Drawing,
  titleOf: (point: string) => string,
  addressOf: (point: string) => string,
): Markup {
  const { parts, wires, grounds, flags } = drawing;
  const words = parts.flatMap(wordsOf);
  const boxes = [
    ...parts.map(extentOf),
    ...words.map(roomOf),
    ...grounds.map(groundBox),
    ...flags.map((flag) => flagOf(flag).box),
    ...wires.flatMap(({ corners }) =>
      corners.map(([x, y]) => ({ left: x * step, top: y * step, right: x * step, bottom: y * step })),
    ),
  ];
  const [leftmost, rightmost] = [Math.min(...boxes.map((box) => box.left)), Math.max(...boxes.map((box) => box.right))];
  const left = Math.round((leftmost + rightmost - width) / 2);
  const top = Math.floor(Math.min(...boxes.map((box) => box.top))) - 2;
  const height = Math.ceil(Math.max(...boxes.map((box) => box.bottom))) + 2 - top;
  return make(
    'svg',
    {
      role: 'group',
      'aria-label': 'Drawing of the circuit',
      viewBox: `${left} ${top} ${width} ${height}`,
      width: '100%',
      ...ink,
    },
    make(
      'g',
      { role: 'img', 'aria-label': 'The parts and their wires; the words below tell what is joined to what.' },
      make('path', { d: wires.map(({ corners }) => drawWire(corners)).join('') }),
      parts.map(drawElement),
      make('path', { d: grounds.map(drawGround).join('') }),
      make('path', {
        fill: 'currentColor',
        stroke: 'none',
        d: dotsOf(drawing)
          .map(([x, y]) => `M${x * step - 2.5} ${y * step}a2.5 2.5 0 0 0 5 0a2.5 2.5 0 0 0 -5 0`)
          .join(''),
      }),
      make('g', { ...type, fill: 'currentColor', 'font-size': String(typeSize) }, words.flatMap(printWords)),
    ),
    make(
      'g',
      { ...type, 'font-size': '12' },
      flags.map((flag) => drawFlag(flag, titleOf(flag.point), addressOf(flag.point))),
    ),
  );
}

/** One symbol as it lies to the right, as decoration beside its name. */
export function drawSymbol(symbol: string): Markup {
  const { pins } = symbolOf(symbol);
  const part: DrawnElement = {
    elements: [],
    symbol,
    at: [0, 0],
    direction: 'right',
    isMirrored: false,
    nodes: pins.map(() => ''),
    words: undefined,
    value: undefined,
    side: undefined,
  };
  const { left, top, right, bottom } = extentOf(part);
  const [across, down] = [right - left + 4, bottom - top + 4];
  return make(
    'svg',
    {
      viewBox: `${left - 2} ${top - 2} ${across} ${down}`,
      width: String(across),
      height: String(down),
      ...ink,
      'aria-hidden': 'true',
    },
    drawElement(part),
  );
}

const ink = { fill: 'none', stroke: 'currentColor', 'stroke-width': '1.3', 'stroke-linejoin': 'round' };
const type = { 'font-family': 'var(--sheet)', 'font-weight': '600', 'text-anchor': 'middle' };

function drawWire(corners: readonly Place[]): string {
  return corners
    .map(([x, y], index) => {
      const before = corners[index - 1];
      if (before === undefined) return `M${x * step} ${y * step}`;
      return before[1] === y ? `H${x * step}` : `V${y * step}`;
    })
    .join('');
}

function drawGround([x, y]: Place): string {
  return `M${x * step} ${y * step}v6m-9 0h18m-3 3h-12m3 3h6`;
}

function drawElement({ symbol, at: [x, y], direction, isMirrored, nodes }: DrawnElement): Child {
  const { path, filled, leads = [] } = symbolOf(symbol);
  const joined = leads.filter((_, index) => nodes[index] !== undefined);
  const turned = degreesOf(direction);
  const transform = `translate(${x * step} ${y * step})${turned === 0 ? '' : `rotate(${turned})`}${isMirrored ? 'scale(1 -1)' : ''}`;
  return [
    make('path', { transform, d: `${path}${joined.join('')}` }),
    filled !== undefined && make('path', { transform, fill: 'currentColor', d: filled }),
  ];
}

function printWords({ lines, x, y, anchor }: Words): readonly Markup[] {
  return lines.map((line, index) =>
    make(
      'text',
      {
        x: String(x),
        y: String(y + index * typeSize),
        stroke: 'none',
        'text-anchor': anchor === 'middle' ? undefined : anchor,
      },
      line,
    ),
  );
}

function drawFlag(flag: PointFlag, title: string, address: string): Markup {
  const {
    from: [fromX, fromY],
    to: [toX, toY],
    middle: [x, y],
  } = flagOf(flag);
  const isRed = flag.lead === 'red';
  const outline = isRed ? `M${x - 8} ${y - 8}h16v16h-16z` : `M${x} ${y - 10}l10 10l-10 10l-10 -10z`;
  return make(
    'a',
    { href: address, 'aria-label': `Point ${flag.number}, ${flag.lead} lead: ${title}` },
    // A finger needs more than the flag itself.
    make('path', { stroke: 'none', 'pointer-events': 'all', d: `M${x - 13} ${y - 13}h26v26h-26z` }),
    make('path', { d: `M${fromX} ${fromY}L${toX} ${toY}` }),
    make('path', { 'stroke-width': '2', d: outline }),
    make('text', { x: String(x), y: String(y + 4), fill: 'currentColor', stroke: 'none' }, String(flag.number)),
  );
}

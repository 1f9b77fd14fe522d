import { shuffled, tracePoints } from '../figure/trace.ts';
import {
  across,
  type Lamps,
  type LampState,
  type Picture,
  saySettings,
  type Screen,
  type Trace,
  upward,
} from '../model/picture.ts';
import { type Child, make, type Markup } from './markup.ts';

/**
 * A picture as SVG: a trace on its graticule, the cells of a screen, the lamps of a probe. All in the ink of the text, so that it needs
 * no rule of style and is light on dark where the page is. `wide` is its width in CSS pixels. Beside words that say the same it is
 * decoration; else `isNamed`, by its title, its sentence and its settings.
 */
export function drawPicture(
  picture: Pick<Picture, 'title' | 'says' | 'shown'>,
  wide: number,
  isNamed: boolean,
): Markup {
  const { shown, title, says } = picture;
  const [width, height, children] = drawShown(shown, wide <= 100);
  const settings = shown.kind === 'trace' ? ` ${saySettings(shown)}.` : '';
  return make(
    'svg',
    {
      viewBox: `-1 -1 ${width + 2} ${height + 2}`,
      width: String(wide),
      height: String(Math.round((wide * height) / width)),
      fill: 'none',
      stroke: 'currentColor',
      ...(isNamed ? { role: 'img', 'aria-label': `${title}. ${says}${settings}` } : { 'aria-hidden': 'true' }),
    },
    children,
  );
}

/** On a button, half as large, a drawing is half as fine. */
function drawShown(
  shown: Picture['shown'],
  isCoarse: boolean,
): readonly [width: number, height: number, children: readonly Child[]] {
  switch (shown.kind) {
    case 'trace':
      return [across * division, upward * division, drawTrace(shown, isCoarse)];
    case 'screen':
      return [200, 150, drawScreen(shown)];
    case 'lamps':
      return [200, 74, drawLamps(shown)];
  }
}

const division = 20;

function drawTrace(trace: Trace, isCoarse: boolean): readonly Child[] {
  const round = (units: number): number => Number(units.toFixed(isCoarse ? 0 : 1));
  const [width, height] = [across * division, upward * division];
  const lines = [
    ...Array.from({ length: across - 1 }, (_, column) => `M${(column + 1) * division} 0V${height}`),
    ...Array.from({ length: upward - 1 }, (_, row) => `M0 ${(row + 1) * division}H${width}`),
  ];
  const zero = height - trace.zero * division;
  const isInside = trace.zero >= 0 && trace.zero <= upward;
  const corners = tracePoints(trace, isCoarse ? 60 : 120).map(([x, volts]) => {
    const y = Math.min(height, Math.max(0, zero - (volts / trace.volts) * division));
    return `${round(x * division)} ${round(y)}`;
  });
  return [
    make('path', { 'stroke-opacity': '.25', d: lines.join('') }),
    make('path', { d: `M0 0H${width}V${height}H0z` }),
    // Where 0 V lies is marked at the left edge, as a short heavy line.
    isInside && make('path', { 'stroke-width': '4', d: `M0 ${zero}h8` }),
    make('path', {
      'stroke-width': '2.5',
      'stroke-linejoin': 'round',
      d: `M${corners.filter((corner, place) => corner !== corners[place - 1]).join(' ')}`,
    }),
  ];
}

const [columns, rows] = [32, 24];

/** The cells of a screen: each row of the picture is repeated to the right, the rows downwards. */
export function cellsOf({ rows: pattern, shifts, rolled, noise }: Screen): readonly string[] {
  return Array.from({ length: rows }, (_, row) => {
    const line = pattern[(row + rolled) % pattern.length] ?? '.';
    const shift = shifts.length === 0 ? 0 : (shifts[row % shifts.length] ?? 0);
    return Array.from({ length: columns }, (__, column) => {
      const cell = line[(((column - shift) % line.length) + line.length) % line.length] ?? '.';
      if (shuffled(row * columns + column) >= noise) return cell;
      return cell === '.' ? '#' : '.';
    }).join('');
  });
}

function drawScreen(screen: Screen): readonly Child[] {
  const [left, top, cellWidth, cellHeight] = screen.border ? [20, 15, 5, 5] : [4, 3, 6, 6];
  const cells = cellsOf(screen);
  const runs = (wanted: string): string =>
    cells
      .flatMap((line, row) =>
        [...line.matchAll(wanted === '#' ? /#+/g : /\++/g)].map(
          ({ 0: run, index }) =>
            `M${left + index * cellWidth} ${top + row * cellHeight}h${run.length * cellWidth}v${cellHeight}h${run.length * -cellWidth}z`,
        ),
      )
      .join('');
  const half = { fill: 'currentColor', 'fill-opacity': '.3', stroke: 'none' };
  return [
    make('path', { 'stroke-width': '2', d: 'M8 0H192Q200 0 200 8V142Q200 150 192 150H8Q0 150 0 142V8Q0 0 8 0z' }),
    screen.border && make('path', { ...half, d: 'M4 3H196V147H4zM20 15V135H180V15z' }),
    make('path', { ...half, d: runs('+') }),
    make('path', { fill: 'currentColor', stroke: 'none', d: runs('#') }),
  ];
}

function drawLamps({ high, low, pulse }: Lamps): readonly Child[] {
  return (
    [
      ['high', high],
      ['low', low],
      ['pulse', pulse],
    ] as const
  ).map(([name, state], place) => {
    const x = 40 + place * 60;
    return [
      make('circle', { cx: String(x), cy: '20', r: '12' }),
      state !== 'off' && make('path', { fill: 'currentColor', d: markOf(state, x) }),
      drawWord(x, 50, name),
      drawWord(x, 67, state),
    ];
  });
}

function drawWord(x: number, y: number, word: string): Markup {
  const look = { fill: 'currentColor', stroke: 'none', 'font-size': '14', 'text-anchor': 'middle' };
  return make('text', { ...look, x: String(x), y: String(y) }, word);
}

/** A lamp that is on is full, a dim one half full; one that blinks is full and has rays. */
function markOf(state: LampState, x: number): string {
  const full = `M${x - 8} 20a8 8 0 0 0 16 0`;
  if (state === 'dim') return `${full}z`;
  const disc = `${full}a8 8 0 0 0 -16 0z`;
  if (state === 'on') return disc;
  return `${disc}M${x - 20} 20h5M${x + 15} 20h5M${x - 15} 5l4 4M${x + 11} 9l4 -4M${x - 15} 35l4 -4M${x + 11} 31l4 4`;
}

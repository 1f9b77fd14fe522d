import { make, type Markup } from './markup.ts';

/** One voltage over time, at equal distances, as a scope would show it. */
export interface Trace {
  readonly volts: readonly number[];
  readonly seconds: number;
}

/** Divisions of a screen, and units of the drawing for each. */
const across = 10;
const down = 8;
const division = 34;

/** The setting at which a trace fills the screen: 1, 2 or 5 times a power of ten a division; the middle line on a whole division. */
export function setScope(traces: readonly Trace[]): {
  readonly voltsADivision: number;
  readonly secondsADivision: number;
  readonly middle: number;
} {
  const volts = traces.flatMap((trace) => trace.volts);
  const low = Math.min(...volts);
  const high = Math.max(...volts);
  const voltsADivision = roundUp(Math.max((high - low) / (down - 2), 1e-3));
  const middle = Math.round((low + high) / 2 / voltsADivision) * voltsADivision;
  const secondsADivision = roundUp((traces[0]?.seconds ?? 0) / across);
  return { voltsADivision, secondsADivision, middle };
}

function roundUp(value: number): number {
  const power = 10 ** Math.floor(Math.log10(value));
  const step = [1, 2, 5, 10].find((each) => each * power >= value * 0.9999) ?? 10;
  return Number((step * power).toPrecision(1));
}

/** Draws a trace on a graticule as SVG for `circuits.css` to style; `says` is its text alternative. */
export function drawTrace(trace: Trace, setting: ReturnType<typeof setScope>, says: string): Markup {
  const width = across * division;
  const height = down * division;
  const y = (volt: number): string =>
    (height / 2 - ((volt - setting.middle) / setting.voltsADivision) * division).toFixed(0);
  const step = ((trace.seconds / setting.secondsADivision) * division) / Math.max(1, trace.volts.length - 1);
  const points = trace.volts.map((volt, index) => `${(index * step).toFixed(0)},${y(volt)}`);
  const lines = [
    ...Array.from({ length: across - 1 }, (_, index) => `M${(index + 1) * division} 0V${height}`),
    ...Array.from({ length: down - 1 }, (_, index) => `M0 ${(index + 1) * division}H${width}`),
  ].join('');
  return make(
    'svg',
    { class: 'trace', role: 'img', viewBox: `0 0 ${width} ${height}`, 'aria-label': says },
    make('path', { class: 'graticule', d: lines }),
    make('rect', { width: String(width), height: String(height) }),
    make('polyline', { points: points.join(' ') }),
  );
}

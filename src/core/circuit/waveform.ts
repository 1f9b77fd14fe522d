import { across, type Trace, upward } from '../model/picture.ts';
import { type FigureName, type PointReading, type Spread, spreadLevels } from '../model/circuit.ts';

/** Voltage over time as a simulator gives it: steps of any length. Seconds and volts, one for one; at least one of each. */
export interface Waveform {
  readonly seconds: readonly number[];
  readonly volts: readonly number[];
}

/** What is less than this share of the largest value, or than a tenth of a millivolt, is no wave. */
const noise = 1e-4;

/**
 * Mean, rms of what is left without it, lowest, highest, and how often a second it rises through the middle with a tenth of its height
 * to spare. Weighted by time, by the trapezoidal rule.
 */
export function measureWaveform({ seconds, volts }: Waveform): Readonly<Record<FigureName, number>> {
  const low = volts.reduce((least, volt) => Math.min(least, volt), Number.POSITIVE_INFINITY);
  const high = volts.reduce((most, volt) => Math.max(most, volt), Number.NEGATIVE_INFINITY);
  const whole = (seconds.at(-1) ?? 0) - (seconds[0] ?? 0);
  if (whole <= 0) return { mean: volts.at(-1) ?? 0, ac: 0, low, high, rate: 0 };
  const mean = integrate(seconds, volts) / whole;
  const squares = volts.map((volt) => (volt - mean) ** 2);
  const ac = Math.sqrt(integrate(seconds, squares) / whole);
  const isStill = high - low < Math.max(noise * Math.max(Math.abs(low), Math.abs(high)), 1e-4);
  return {
    mean,
    ac: isStill ? 0 : ac,
    low,
    high,
    rate: isStill ? 0 : findRate({ seconds, volts }, (low + high) / 2, (high - low) / 10),
  };
}

function integrate(seconds: readonly number[], values: readonly number[]): number {
  let sum = 0;
  for (let index = 1; index < values.length; index += 1) {
    const width = (seconds[index] ?? 0) - (seconds[index - 1] ?? 0);
    sum += (width * ((values[index] ?? 0) + (values[index - 1] ?? 0))) / 2;
  }
  return sum;
}

/** Rises a second between the first and the last one; 0 where there are fewer than two. */
function findRate({ seconds, volts }: Waveform, middle: number, margin: number): number {
  const rises: number[] = [];
  let isLow = false;
  volts.forEach((volt, index) => {
    if (volt < middle - margin) isLow = true;
    if (!isLow || volt < middle + margin) return;
    isLow = false;
    rises.push(seconds[index] ?? 0);
  });
  const between = (rises.at(-1) ?? 0) - (rises[0] ?? 0);
  return rises.length < 2 ? 0 : (rises.length - 1) / between;
}

/** The nominal figure and the percentiles of the samples, by linear interpolation between the two nearest. */
export function summarise(nominal: number, samples: readonly number[]): Spread {
  const sorted = samples.toSorted((one, other) => one - other);
  const at = (level: number): number => {
    const place = level * (sorted.length - 1);
    const below = sorted[Math.floor(place)] ?? nominal;
    return below + ((sorted[Math.ceil(place)] ?? below) - below) * (place % 1);
  };
  return [nominal, ...spreadLevels.map(at)].map((value) => Number(value.toPrecision(4)));
}

/** Volts at `count` equal distances over the whole waveform. */
export function sampleTrace({ seconds, volts }: Waveform, count: number): readonly number[] {
  const start = seconds[0] ?? 0;
  const step = ((seconds.at(-1) ?? 0) - start) / (count - 1);
  if (step <= 0) return [];
  let index = 0;
  return Array.from({ length: count }, (_, place) => {
    const at = start + place * step;
    while (index < seconds.length - 2 && (seconds[index + 1] ?? 0) < at) index += 1;
    const from = seconds[index] ?? 0;
    const width = (seconds[index + 1] ?? from) - from;
    const share = width > 0 ? Math.min(1, (at - from) / width) : 0;
    const volt = volts[index] ?? 0;
    return Number((volt + ((volts[index + 1] ?? volt) - volt) * share).toPrecision(4));
  });
}

/** What lies between 0 and 1 of a spread, as a figure: its quantile function, straight between the levels that are kept. */
export function figureAt([, ...percentiles]: Spread, share: number): number {
  const above = spreadLevels.findIndex((level) => level >= share);
  const from = spreadLevels[above - 1] ?? 0;
  const to = spreadLevels[above] ?? 1;
  const low = percentiles[above - 1] ?? percentiles[0] ?? 0;
  const high = percentiles[above] ?? low;
  return to > from ? low + ((high - low) * (share - from)) / (to - from) : high;
}

/** Peak to peak of a reading. */
export function peakToPeak({ high, low }: PointReading): Spread {
  return high.map((volt, level) => volt - (low[level] ?? 0));
}

/** The nominal figure, to three digits. */
export function sayFigure([nominal = 0]: Spread): string {
  return String(Number(Math.abs(nominal) < 5e-4 ? 0 : nominal.toPrecision(3))).replace('-', '−');
}

/** Where nine of ten lie: `8.99 to 10.6`; nothing where that is one figure. */
export function sayRange([, , low = 0, , , , high = 0]: Spread): string {
  const [from, to] = [sayFigure([low]), sayFigure([high])];
  return from === to ? '' : `${from} to ${to}`;
}

/**
 * What a scope shows of a reading over `seconds`, at the setting that fills most of its screen: 1, 2 or 5 times a power of ten a
 * division, the middle of the trace near the middle of the screen.
 */
export function traceOf({ trace: volts, low: [low = 0], high: [high = 0] }: PointReading, seconds: number): Trace {
  const perDivision = roundUp(Math.max((high - low) / (upward - 1), 1e-3));
  const step = seconds / Math.max(1, volts.length - 1);
  return {
    kind: 'trace',
    volts: perDivision,
    time: roundUp(seconds / across),
    coupling: 'dc',
    zero: upward / 2 - Math.round((low + high) / 2 / perDivision),
    shapes: [{ kind: 'lines', points: volts.map((volt, index) => [index * step, volt] as const), period: undefined }],
  };
}

/** The next 1, 2 or 5 times a power of ten. */
function roundUp(value: number): number {
  const power = 10 ** Math.floor(Math.log10(value));
  const step = [1, 2, 5, 10].find((each) => each * power >= value * 0.9999) ?? 10;
  return Number((step * power).toPrecision(1));
}

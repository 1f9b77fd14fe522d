import { across, type Shape, type Trace } from '../model/picture.ts';

/** A point of a trace: divisions from the left, and volts. */
export type TracePoint = readonly [division: number, volts: number];

/** How many stretches a curve without corners is drawn in, where nothing else is said. */
const finest = 120;

/**
 * The corners of a trace, from the left edge of the graticule to the right one. Straight shapes give their own corners; where one of
 * the shapes is a curve, the sum is taken at equal steps as well.
 */
export function tracePoints(
  { shapes, time }: Pick<Trace, 'shapes' | 'time'>,
  steps: number = finest,
): readonly TracePoint[] {
  const end = across * time;
  const corners = shapes.flatMap((shape) => cornersOf(shape, end, steps));
  const isCurved = shapes.some(({ kind }) => kind === 'sine' || kind === 'ripple' || kind === 'charge');
  const even = isCurved ? Array.from({ length: steps + 1 }, (_, step) => (step / steps) * end) : [];
  const times = [...new Set([0, end, ...corners, ...even])]
    .filter((seconds) => seconds >= 0 && seconds <= end)
    .sort((one, other) => one - other);
  return times.map((seconds) => [
    seconds / time,
    shapes.reduce((sum, shape) => sum + voltsAt(shape, seconds, time), 0),
  ]);
}

/** The most corners of one shape: what repeats oftener than that is a band, not a line. */
const mostCorners = 400;

/** The times at which a shape has a corner, up to `end` seconds. */
function cornersOf(shape: Shape, end: number, steps: number): readonly number[] {
  switch (shape.kind) {
    case 'lines': {
      const { points, period } = shape;
      const own = points.map(([seconds]) => seconds);
      return period === undefined ? own : repeat(own, period, end);
    }
    case 'square': {
      const { hertz, duty, edge } = shape;
      return repeat([0, edge, duty / hertz, duty / hertz + edge], 1 / hertz, end);
    }
    case 'bits': {
      const { seconds, levels, edge } = shape;
      return [...levels].flatMap((_, place) => [place * seconds, place * seconds + edge]);
    }
    case 'noise':
      return Array.from({ length: steps + 1 }, (_, step) => (step / steps) * end);
    case 'charge':
      return [shape.begins];
    case 'ripple':
      return repeat([0, fillingBegins(shape) / shape.hertz], 1 / shape.hertz, end);
    case 'sine':
      return [];
  }
}

function repeat(times: readonly number[], period: number, end: number): readonly number[] {
  const rounds = Math.min(Math.ceil(end / period) + 1, Math.floor(mostCorners / Math.max(times.length, 1)));
  return Array.from({ length: rounds }, (_, round) => times.map((seconds) => seconds + round * period)).flat();
}

/** What a shape adds at a time, in volts. `division` is the length of one in seconds. */
function voltsAt(shape: Shape, seconds: number, division: number): number {
  switch (shape.kind) {
    case 'lines':
      return alongLines(shape.points, shape.period === undefined ? seconds : modulo(seconds, shape.period));
    case 'sine': {
      const { mean, amplitude, hertz, top, foot, gap } = shape;
      const swing = amplitude * Math.sin(2 * Math.PI * hertz * seconds);
      // Crossover: within the gap neither half of the stage conducts.
      const passed = Math.sign(swing) * Math.max(0, Math.abs(swing) - gap);
      return Math.min(top ?? Infinity, Math.max(foot ?? -Infinity, mean + passed));
    }
    case 'square': {
      const { low, high, hertz, duty, edge } = shape;
      const at = modulo(seconds, 1 / hertz);
      const [rising, falling] = [passedOf(at, edge), passedOf(at - duty / hertz, edge)];
      return low + (high - low) * (rising - falling);
    }
    case 'ripple':
      return rippleAt(shape, seconds);
    case 'charge': {
      const { from, to, tau, begins } = shape;
      return seconds < begins ? from : to + (from - to) * Math.exp((begins - seconds) / tau);
    }
    case 'bits': {
      const { low, high, levels, edge } = shape;
      const place = Math.min(levels.length - 1, Math.floor(seconds / shape.seconds + 1e-9));
      const levelAt = (index: number): number => (levels[Math.max(0, index)] === '1' ? high : low);
      return (
        levelAt(place - 1) + (levelAt(place) - levelAt(place - 1)) * passedOf(seconds - place * shape.seconds, edge)
      );
    }
    case 'noise':
      return shape.amplitude * (2 * shuffled(Math.round((seconds / division) * 1000)) - 1);
  }
}

/** How much of an edge that takes `edge` seconds has passed, 0 to 1. */
function passedOf(seconds: number, edge: number): number {
  if (seconds < 0) return 0;
  return edge <= 0 ? 1 : Math.min(1, seconds / edge);
}

/**
 * Filled along the crest of a sine wave of the mains, emptied in a straight line until the next crest is higher: the capacitor-input
 * filter as handbooks draw it.
 */
function rippleAt({ top, trough, hertz, mains }: Extract<Shape, { kind: 'ripple' }>, seconds: number): number {
  const phase = modulo(seconds * hertz, 1);
  const turn = (2 * Math.PI * mains) / hertz;
  const crest = top * Math.max(0, Math.cos(turn * phase), Math.cos(turn * (1 - phase)));
  return Math.max(crest, top - ((top - trough) * phase) / fillingBegins({ top, trough, hertz, mains }));
}

/** The share of a round after which the next crest is as high as the capacitor is by then. */
function fillingBegins({
  top,
  trough,
  hertz,
  mains,
}: Pick<Extract<Shape, { kind: 'ripple' }>, 'top' | 'trough' | 'hertz' | 'mains'>): number {
  return 1 - (Math.acos(Math.min(1, trough / top)) * hertz) / (2 * Math.PI * mains);
}

function alongLines(points: readonly (readonly [number, number])[], seconds: number): number {
  const next = points.findIndex(([at]) => at >= seconds - 1e-12);
  const [after, before] = [points[next], points[next - 1]];
  if (after === undefined) return points.at(-1)?.[1] ?? 0;
  if (before === undefined) return after[1];
  const width = after[0] - before[0];
  return width <= 0 ? after[1] : before[1] + ((after[1] - before[1]) * (seconds - before[0])) / width;
}

function modulo(value: number, period: number): number {
  const rest = value % period;
  // A time that is a whole period but for rounding begins the next round.
  return rest > period * (1 - 1e-9) ? 0 : rest;
}

/** A number from 0 to 1 without a pattern to the eye, the same for the same place (a linear congruential step, twice). */
export function shuffled(place: number): number {
  const once = (Math.imul(place + 1, 1_664_525) + 1_013_904_223) >>> 0;
  return (((Math.imul(once ^ (once >>> 13), 1_664_525) + 1_013_904_223) >>> 0) % 1000) / 1000;
}

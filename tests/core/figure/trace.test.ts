import { describe, expect, it } from 'vitest';
import { type TracePoint, tracePoints } from '#core/figure/trace.ts';
import { saySettings, type Shape } from '#core/model/picture.ts';

// Expected values: by hand, from what the shape is.
const voltsNear = (points: readonly TracePoint[], division: number): number =>
  points.reduce((best, point) => (Math.abs(point[0] - division) < Math.abs(best[0] - division) ? point : best))[1];
const trace = (time: number, ...shapes: readonly Shape[]): readonly TracePoint[] => tracePoints({ time, shapes });

describe('the points of a trace', () => {
  it('span the graticule from its left edge to its right one, in order', () => {
    const points = trace(1e-3, { kind: 'square', low: 0, high: 5, hertz: 1000, duty: 0.5, edge: 0 });
    const divisions = points.map(([division]) => division);

    expect([divisions[0], divisions.at(-1)]).toEqual([0, 10]);
    expect(divisions).toEqual(divisions.toSorted((one, other) => one - other));
  });

  it('of a full-wave rectifier crest 100 times a second and fall to the trough before each crest', () => {
    // 5 ms a division: a crest every two divisions. The capacitor meets the crest where 10 V · cos = 8 V: acos(0.8) = 36.87°, which is
    // 2.05 ms of 50 Hz before the crest.
    const points = trace(5e-3, { kind: 'ripple', top: 10, trough: 8, hertz: 100, mains: 50 });

    for (const division of [0, 2, 4, 6, 8]) expect(voltsNear(points, division)).toBeCloseTo(10, 1);
    expect(Math.min(...points.map(([, volts]) => volts))).toBeCloseTo(8, 1);
    expect(voltsNear(points, 2 - 2.05 / 5)).toBeCloseTo(8, 1);
  });

  it('of one diode alone crest every 20 ms and follow the half wave of the mains there', () => {
    const points = trace(5e-3, { kind: 'ripple', top: 10, trough: 6, hertz: 50, mains: 50 });

    for (const division of [0, 4, 8]) expect(voltsNear(points, division)).toBeCloseTo(10, 1);
    // acos(0.6) = 53.13° of 360° in 20 ms: 2.95 ms before the crest.
    expect(voltsNear(points, 4 - 2.95 / 5)).toBeCloseTo(6, 1);
  });

  it('of an empty reservoir are the rectified sine wave itself', () => {
    const points = trace(5e-3, { kind: 'ripple', top: 10, trough: 0, hertz: 100, mains: 50 });

    // 45° past the crest is 2.5 ms of 50 Hz: 10 V · cos 45° = 7.07 V.
    expect(voltsNear(points, 0.5)).toBeCloseTo(7.07, 1);
    expect(voltsNear(points, 1)).toBeCloseTo(0, 1);
  });

  it('of a charging capacitor reach 63 % after one time constant and 95 % after three', () => {
    const points = trace(0.1, { kind: 'charge', from: 0, to: 5, tau: 0.1, begins: 0.1 });

    expect(voltsNear(points, 1)).toBeCloseTo(0, 2);
    expect(voltsNear(points, 2)).toBeCloseTo(5 * 0.632, 2);
    expect(voltsNear(points, 4)).toBeCloseTo(5 * 0.95, 2);
  });

  it('of a sine wave are cut where the stage ends, and stand still where neither half conducts', () => {
    const shape = { kind: 'sine', mean: 4, amplitude: 3, hertz: 100, top: 6, foot: undefined, gap: 1 } as const;
    const points = trace(1e-3, shape);

    // Crest at a quarter of 10 ms: 4 + (3 − 1) = 6; at 0.5 ms 3 · sin 18° = 0.93 is within the gap.
    expect(voltsNear(points, 2.5)).toBeCloseTo(6, 3);
    expect(voltsNear(points, 0.5)).toBeCloseTo(4, 3);
    expect(voltsNear(points, 7.5)).toBeCloseTo(2, 2);
  });

  it('of a byte give each bit its time', () => {
    // 9600 a second: 104 µs each. The letter A, least bit first, between a start bit of 0 and a stop bit of 1.
    const shape = { kind: 'bits', low: 9, high: -9, seconds: 104e-6, levels: '10100000101', edge: 0 } as const;
    const points = trace(200e-6, shape);
    const middles = [...shape.levels].map((_, bit) => ((bit + 0.5) * 104e-6) / 200e-6);
    const between = (at: number): number => points.findLast(([division]) => division <= at)?.[1] ?? NaN;

    expect(middles.map(between)).toEqual([-9, 9, -9, 9, 9, 9, 9, 9, -9, 9, -9]);
  });

  it('of lines between points are those of the straight line, again after each period', () => {
    const points = trace(1e-3, {
      kind: 'lines',
      points: [
        [0, 1],
        [2e-3, 3],
        [4e-3, 1],
      ],
      period: 4e-3,
    });

    expect(points.slice(0, 3)).toEqual([
      [0, 1],
      [2, 3],
      [4, 1],
    ]);
    expect(voltsNear(points, 6)).toBeCloseTo(3, 9);
  });

  it('of noise are the same every time, within its limits', () => {
    const shape = { kind: 'noise', amplitude: 2 } as const;

    expect(trace(1, shape)).toEqual(trace(1, shape));
    expect(Math.max(...trace(1, shape).map(([, volts]) => Math.abs(volts)))).toBeLessThanOrEqual(2);
    expect(new Set(trace(1, shape).map(([, volts]) => volts)).size).toBeGreaterThan(80);
  });
});

describe('the settings', () => {
  it('are said with the prefix that a scope has on its knob', () => {
    const say = (volts: number, time: number): string =>
      saySettings({ kind: 'trace', volts, time, coupling: 'dc', zero: 0, shapes: [] });

    expect(say(0.5, 0.01)).toBe('0.5 V/div, 10 ms/div, dc');
    expect(say(0.05, 1e-6)).toBe('50 mV/div, 1 µs/div, dc');
    expect(say(5, 1e-7)).toBe('5 V/div, 100 ns/div, dc');
    expect(say(2, 1)).toBe('2 V/div, 1 s/div, dc');
  });
});

import { computeBandProbabilities, erfc, normalInterval, type Scale, upperTail } from '#core/reading/judgement.ts';
import cdf from '@stdlib/stats-base-dists-normal-cdf';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';

/** A scale with one or two limits and no `none`. */
function makeScale(low: number | undefined, high: number | undefined): Scale {
  return {
    bands: [
      ...(low === undefined ? [] : [{ name: 'low', from: undefined, to: low }]),
      { name: 'in', from: low, to: high },
      ...(high === undefined ? [] : [{ name: 'high', from: high, to: undefined }]),
    ],
    compare: 'value',
    sign: 'positive',
  };
}

function probabilityOf(band: string, value: number, standardUncertainty: number, scale: Scale): number {
  return (
    computeBandProbabilities(value, standardUncertainty, scale).find((found) => found.band === band)?.probability ??
    Number.NaN
  );
}

// JCGM 106:2012, Evaluation of measurement data: the role of measurement uncertainty in conformity assessment. The clause numbers of
// the table and of the guard bands were read in a statistics package's demonstration; the examples' figures are from memory.
describe('the examples of JCGM 106:2012', () => {
  test('clause 7, one upper limit: a Zener diode of −5.47 V, u 0.05 V, limit −5.40 V conforms with 0.92', () => {
    expect(probabilityOf('in', -5.47, 0.05, makeScale(undefined, -5.4))).toBeCloseTo(0.92, 2);
  });

  test('clause 7, one lower limit: a container of 509.7 kPa, u 8.6 kPa, limit 490 kPa conforms with 0.99', () => {
    expect(probabilityOf('in', 509.7, 8.6, makeScale(490, undefined))).toBeCloseTo(0.99, 2);
  });

  test('clause 7, two limits: an oil of 13.6 mm²/s, u 1.8, limits 12.5 and 16.3 conforms with 0.93 − 0.27 = 0.66', () => {
    const scale = makeScale(12.5, 16.3);
    expect(probabilityOf('in', 13.6, 1.8, scale)).toBeCloseTo(0.66, 2);
    expect(probabilityOf('low', 13.6, 1.8, scale)).toBeCloseTo(0.27, 2);
    expect(1 - probabilityOf('high', 13.6, 1.8, scale)).toBeCloseTo(0.93, 2);
  });

  test.each([
    [0.8, 0.84],
    [0.9, 1.28],
    [0.95, 1.64],
    [0.99, 2.33],
    [0.999, 3.09],
  ])('clause 7, table 1: conformance with %d wants a distance of %d u', (probability, distance) => {
    const scale = makeScale(undefined, 0);
    expect(probabilityOf('in', -(distance - 0.006), 1, scale)).toBeLessThan(probability);
    expect(probabilityOf('in', -(distance + 0.006), 1, scale)).toBeGreaterThan(probability);
  });

  test('clause 8: a guard band of 2 u accepts wrongly in at most 2.3 of 100', () => {
    expect(100 * probabilityOf('high', -2, 1, makeScale(undefined, 0))).toBeCloseTo(2.3, 1);
  });

  // Resistors of 1500 Ω ± 0.2 Ω, production spread 0.12 Ω, measured with u 0.04 Ω, accepted within ± 0.18 Ω.
  test('clause 9.5: of the resistors made, 0.90 conform; the consumer risks 0.01 and the producer 0.07', () => {
    const tolerance = makeScale(-0.2, 0.2);
    const acceptance = makeScale(-0.18, 0.18);
    expect(probabilityOf('in', 0, 0.12, tolerance)).toBeCloseTo(0.9, 2);
    const step = 0.0001;
    const sum = { consumer: 0, producer: 0 };
    for (let middle = -1 + step / 2; middle < 1; middle += step) {
      const made = normalInterval((middle - step / 2) / 0.12, (middle + step / 2) / 0.12);
      const accepted = probabilityOf('in', middle, 0.04, acceptance);
      if (Math.abs(middle) > 0.2) sum.consumer += made * accepted;
      else sum.producer += made * (1 - accepted);
    }
    expect(sum.consumer).toBeCloseTo(0.01, 2);
    expect(sum.producer).toBeCloseTo(0.07, 2);
  });
});

describe('the normal tail', () => {
  // Abramowitz and Stegun, Handbook of Mathematical Functions, 1964, table 26.2: −log10 Q(x); from memory, recomputed elsewhere.
  test.each([
    [5, 6.54265],
    [10, 23.11805],
    [20, 88.5601],
    [30, 197.30921],
  ])('beyond %d the handbook has 10 to the minus %d', (distance, exponent) => {
    expect(-Math.log10(upperTail(distance))).toBeCloseTo(exponent, 5);
  });

  // Abramowitz and Stegun, table 7.1: erf(1) = 0.8427007929, erf(2) = 0.9953222650; from memory.
  test('the error function has the handbook values', () => {
    expect(1 - erfc(1)).toBeCloseTo(0.8427007929, 10);
    expect(1 - erfc(2)).toBeCloseTo(0.995322265, 10);
    expect(erfc(-1)).toBeCloseTo(1.8427007929, 10);
    expect(erfc(0)).toBe(1);
    expect(erfc(Number.NEGATIVE_INFINITY)).toBe(2);
    expect(erfc(Number.POSITIVE_INFINITY)).toBe(0);
    expect(erfc(Number.NaN)).toBeNaN();
  });

  test('agrees with an independent library to 1e-11 of itself, down to the smallest normal double', () => {
    let worst = 0;
    for (let distance = -9; distance <= 37.5; distance += 0.00731) {
      const other = cdf(-distance, 0, 1);
      worst = Math.max(worst, Math.abs(upperTail(distance) / other - 1));
    }
    expect(worst).toBeLessThan(1e-11);
  });

  test('probabilities of bands far out keep nine digits against the same library', () => {
    const anywhere = fc.double({ min: -30, max: 30, noNaN: true });
    fc.assert(
      fc.property(anywhere, fc.double({ min: 0.01, max: 20, noNaN: true }), (from, width) => {
        const to = from + width;
        // The side where both tails are small, so that the subtraction outside loses no digits.
        const other = from + to > 0 ? cdf(-from, 0, 1) - cdf(-to, 0, 1) : cdf(to, 0, 1) - cdf(from, 0, 1);
        const steepness = width * (1 + Math.abs(from));
        const lost = 1e-15 / Math.min(1, steepness);
        expect(Math.abs(normalInterval(from, to) / other - 1)).toBeLessThan(1e-10 + lost);
      }),
      { numRuns: 3000 },
    );
  });

  // Midpoint expansion by Taylor's theorem: P = φ(m) w [1 + (m² − 1) w²/24 + …], independent of any error function.
  test('a window a millionth wide keeps ten digits anywhere', () => {
    for (const middle of [0, 0.3, 1, 4, 12, 25, -37]) {
      const width = 1e-6;
      const density = Math.exp((-middle * middle) / 2) / Math.sqrt(2 * Math.PI);
      const expected = density * width * (1 + ((middle * middle - 1) * width * width) / 24);
      // The ends are rounded to doubles, which changes so narrow a window by up to 1e-8 of itself far out.
      const from = middle - width / 2;
      const to = middle + width / 2;
      const real = expected * ((to - from) / width);
      expect(Math.abs(normalInterval(from, to) / real - 1)).toBeLessThan(1e-10);
    }
  });
});

import { describe, expect, test } from 'vitest';
import { measureIsolation } from '../support/diagnosis/measure-isolation.ts';

// In the manner of IEEE Std 1522-2004 (formulas from memory), on the matrix of Pattipati and Alexandridis 1990 (from memory).
// The expected figures are fractions worked out by hand from the rates.
describe('isolation metrics', () => {
  const faults = [
    { id: 's1', rate: 0.01, row: '01001' },
    { id: 's2', rate: 0.02, row: '00110' },
    { id: 's3', rate: 0.1, row: '10011' },
    { id: 's4', rate: 0.05, row: '11000' },
    { id: 's5', rate: 0.12, row: '11110' },
  ];
  const measureWith = (checks: readonly number[]) =>
    measureIsolation(
      faults.map(({ id, rate, row }) => ({ id, rate, outcomes: checks.map((check) => row[check] ?? '') })),
      checks.map(() => '0'),
    );

  test('all five tests detect every fault and isolate each to itself', () => {
    const metrics = measureWith([0, 1, 2, 3, 4]);
    expect(metrics.detectedFraction).toBeCloseTo(1, 12);
    expect(metrics.isolatedFraction(1)).toBeCloseTo(1, 12);
    expect(metrics.expectedGroupSize).toBeCloseTo(1, 12);
    expect(metrics.idleChecks).toEqual([]);
  });

  test('tests 1 and 4 alone miss s1 and leave s3 and s5 together', () => {
    const metrics = measureWith([0, 3]);
    expect(metrics.detectedFraction).toBeCloseTo(29 / 30, 12);
    expect(metrics.groups).toEqual([['s2'], ['s3', 's5'], ['s4']]);
    expect(metrics.isolatedFraction(1)).toBeCloseTo(7 / 29, 12);
    expect(metrics.isolatedFraction(2)).toBeCloseTo(1, 12);
    expect(metrics.expectedGroupSize).toBeCloseTo(51 / 29, 12);
  });

  test('with a rate of one each the fractions count faults: four of five detected', () => {
    const counted = measureIsolation(
      faults.map(({ id, row }) => ({ id, rate: 1, outcomes: [row[0] ?? '', row[3] ?? ''] })),
      ['0', '0'],
    );
    expect(counted.detectedFraction).toBeCloseTo(4 / 5, 12);
  });

  test('a check that every fault answers alike separates nothing, and no faults measure nothing', () => {
    expect(
      measureIsolation([
        { id: 'a', rate: 1, outcomes: [0, 1] },
        { id: 'b', rate: 1, outcomes: [0, 0] },
      ]).idleChecks,
    ).toEqual([0]);
    expect(measureIsolation([]).expectedGroupSize).toBe(0);
    expect(measureIsolation([]).detectedFraction).toBeUndefined();
  });
});

import { describe, expect, it } from 'vitest';
import { addScores, fitChoices, fitClasses, fitOneClass, turnIntoChances } from '#core/search/fit-model.ts';
import { openModel, packWeights, scoreClasses, untaughtModel } from '#core/search/taught-model.ts';
import { bucketCount, type TextFeatures } from '#core/search/text-features.ts';

function only(bucket: number): TextFeatures {
  return { buckets: Int32Array.of(bucket), values: Float64Array.of(1) };
}

describe('fitting', () => {
  it('turns scores into the softmax: 0, ln 2 and ln 5 are 1, 2 and 5 eighths', () => {
    const scores = Float64Array.of(0, Math.log(2), Math.log(5));
    turnIntoChances(scores);
    for (const [at, part] of [1, 2, 5].entries()) expect(scores[at]).toBeCloseTo(part / 8, 12);
  });

  it('learns what each class is told by, and the same twice', () => {
    const rows = [0, 1, 2].map((index) => ({ features: only(index * 7), classes: [index], weight: 1 }));
    const weights = fitClasses(rows, 3);
    for (const { features, classes } of rows) {
      const scores = new Float64Array(3);
      addScores(weights, features, scores);
      expect(scores.indexOf(Math.max(...scores))).toBe(classes[0]);
    }
    expect(fitClasses(rows, 3)).toEqual(weights);
  });

  it('gives a yes-or-no question the odds that it was seen with: three of four is ln 3, a little less by the penalty', () => {
    const choices = [0, 0, 0, 1].map((wanted) => ({ alternatives: [[1], [0]], wanted: [wanted] }));
    const [weight = 0] = fitChoices(choices);
    expect(weight).toBeGreaterThan(Math.log(3) * 0.95);
    expect(weight).toBeLessThan(Math.log(3));
  });

  it('a class more learns beside the known ones: its own words raise it, theirs lower it', () => {
    const weights = fitOneClass([
      { features: only(3), isOwn: true, weight: 1, others: 0 },
      { features: only(4), isOwn: false, weight: 1, others: 0 },
    ]);
    expect(weights[3]).toBeGreaterThan(1);
    expect(weights[4]).toBeLessThan(-1);
    expect(weights[5]).toBe(0);
  });

  it('levels printed as letters come back as they were, the greatest cut to seven, however far apart', () => {
    const weights = new Float32Array(bucketCount);
    weights.set([0, 0.2, 1.26, -1.5, 3.5, -100]);
    const packed = packWeights(weights, 1, 0.5);
    expect(packed).toEqual({ gaps: ['2000'], levels: ['cCgG'] });
    const model = openModel({ ...untaughtModel, scale: 0.5, weights: packed }, []);
    expect([2, 3, 4, 5].map((bucket) => scoreClasses(model, only(bucket))[0])).toEqual([1.5, -1.5, 3.5, -3.5]);
    const places = [0, 42, 43, 86, 130, 300, bucketCount - 1];
    const far = new Float32Array(bucketCount);
    for (const place of places) far[place] = 1;
    const read = openModel({ ...untaughtModel, weights: packWeights(far, 1, 1) }, []);
    expect([...read.weights.keys()].filter((place) => read.weights[place] !== 0)).toEqual(places);
  });
});

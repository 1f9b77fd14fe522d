import { addScores } from './fit-model.ts';
import { bucketCount, type TextFeatures } from './text-features.ts';

/** What was learned from queries, as `npm run teach` writes it. */
export interface TaughtModel {
  /** Slugs of trees, written or not yet, and last `NONE` for what is not ours. */
  readonly classes: readonly string[];
  /** What one level of a weight is worth. */
  readonly scale: number;
  /** For each class its weight in each bucket: `0`, `a` to `o` for 1 to 15, `A` to `O` for −1 to −15. */
  readonly weights: readonly string[];
  /** Weights of `Evidence.features` and of `Evidence.refusal`. */
  readonly ranking: readonly number[];
  readonly refusal: readonly number[];
}

/** A model made ready: levels bucket by bucket, and which tree each class is. */
export interface OpenModel extends Omit<TaughtModel, 'weights'> {
  readonly weights: Int8Array;
  /** Number of each class's tree in the index; undefined for NONE and for trees that are not written. */
  readonly treeOf: readonly (number | undefined)[];
  /** Number of the class NONE. */
  readonly none: number;
}

export const noneClass = 'NONE';
const mostLevel = 15;

/** A model that has learned nothing: everything is left to the concepts. */
export const untaughtModel: TaughtModel = {
  classes: [noneClass],
  scale: 1,
  weights: [''],
  ranking: [0, 6, 6],
  // Nothing fits where the best score by concepts is below 0.27.
  refusal: [1.755, 0, -8],
};

/** Reads the levels of a model. Cost: one pass over its letters. */
export function openModel(model: TaughtModel, slugs: readonly string[]): OpenModel {
  const { classes, scale, ranking, refusal } = model;
  const trees = new Map(slugs.map((slug, tree) => [slug, tree]));
  const weights = new Int8Array(bucketCount * classes.length);
  for (const [index, row] of model.weights.entries()) {
    for (let bucket = 0; bucket < row.length; bucket += 1) {
      const code = row.charCodeAt(bucket);
      weights[bucket * classes.length + index] = code > 96 ? code - 96 : code > 64 ? 64 - code : 0;
    }
  }
  return {
    classes,
    scale,
    ranking,
    refusal,
    weights,
    treeOf: classes.map((slug) => trees.get(slug)),
    none: classes.indexOf(noneClass),
  };
}

/** Weights as letters, one row a class. `scale`: what a level is worth; greater weights are cut to fifteen levels. */
export function printLevels(weights: Float32Array, classCount: number, scale: number): readonly string[] {
  return Array.from({ length: classCount }, (_, index) => {
    let row = '';
    for (let bucket = 0; bucket < bucketCount; bucket += 1) {
      const level = Math.round((weights[bucket * classCount + index] ?? 0) / scale);
      const size = Math.min(mostLevel, Math.abs(level));
      row += size === 0 ? '0' : String.fromCharCode((level > 0 ? 96 : 64) + size);
    }
    return row;
  });
}

/** What a model makes of a text: a score for each class. Cost: its buckets times the classes. */
export function scoreClasses({ weights, classes, scale }: OpenModel, features: TextFeatures): Float64Array {
  const scores = new Float64Array(classes.length);
  addScores(weights, features, scores);
  for (let index = 0; index < scores.length; index += 1) scores[index] = (scores[index] ?? 0) * scale;
  return scores;
}

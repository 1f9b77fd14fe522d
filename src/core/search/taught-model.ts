import { addScores } from './fit-model.ts';
import { bucketCount, type TextFeatures } from './text-features.ts';

/** What was learned from queries, as `npm run teach` writes it. */
export interface TaughtModel {
  /** Slugs of trees, written or not yet, and last `NONE` for what is not ours. */
  readonly classes: readonly string[];
  /** What one level of a weight is worth. */
  readonly scale: number;
  readonly weights: PackedWeights;
  /** Weights of `Evidence.features` and of `Evidence.refusal`. */
  readonly ranking: readonly number[];
  readonly refusal: readonly number[];
}

/** For each class the weights that it has. Gaps and levels apart pack smaller than one letter for every bucket. */
export interface PackedWeights {
  /** How many buckets without a weight stand before each: `0` for none to `Z` for 42; `[` for 43 and no weight. */
  readonly gaps: readonly string[];
  /** How great each is: `a` to `g` for 1 to 7, `A` to `G` for −1 to −7. */
  readonly levels: readonly string[];
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
/** Finer levels found no more of the strangers’ queries, and take longer to fetch. */
export const mostLevel = 7;
const noGap = '0'.charCodeAt(0);
const longGap = '[';
const longGapLength = longGap.charCodeAt(0) - noGap;

/** A model that has learned nothing: everything is left to the concepts. */
export const untaughtModel: TaughtModel = {
  classes: [noneClass],
  scale: 1,
  weights: { gaps: [''], levels: [''] },
  ranking: [0, 6, 6],
  // Nothing fits where the best score by concepts is below 0.27.
  refusal: [1.755, 0, -8],
};

/** Reads the levels of a model. Cost: one pass over its letters. */
export function openModel(model: TaughtModel, slugs: readonly string[]): OpenModel {
  const { classes, scale, ranking, refusal } = model;
  const trees = new Map(slugs.map((slug, tree) => [slug, tree]));
  const weights = new Int8Array(bucketCount * classes.length);
  for (const [index, gaps] of model.weights.gaps.entries()) {
    const levels = model.weights.levels[index] ?? '';
    let bucket = 0;
    let at = 0;
    for (const letter of gaps) {
      bucket += letter.charCodeAt(0) - noGap;
      if (letter === longGap) continue;
      const code = levels.charCodeAt(at);
      weights[bucket * classes.length + index] = code > 96 ? code - 96 : 64 - code;
      bucket += 1;
      at += 1;
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

/** Weights as `TaughtModel.weights` holds them. `scale`: what a level is worth; greater weights are cut to the highest level. */
export function packWeights(weights: Float32Array, classCount: number, scale: number): PackedWeights {
  const rows = Array.from({ length: classCount }, (_, index) => {
    let gaps = '';
    let levels = '';
    let gap = 0;
    for (let bucket = 0; bucket < bucketCount; bucket += 1) {
      const level = Math.round((weights[bucket * classCount + index] ?? 0) / scale);
      if (level === 0) {
        gap += 1;
        continue;
      }
      gaps += longGap.repeat(Math.floor(gap / longGapLength)) + String.fromCharCode(noGap + (gap % longGapLength));
      levels += String.fromCharCode((level > 0 ? 96 : 64) + Math.min(mostLevel, Math.abs(level)));
      gap = 0;
    }
    return { gaps, levels };
  });
  return { gaps: rows.map(({ gaps }) => gaps), levels: rows.map(({ levels }) => levels) };
}

/** What a model makes of a text: a score for each class. Cost: its buckets times the classes. */
export function scoreClasses({ weights, classes, scale }: OpenModel, features: TextFeatures): Float64Array {
  const scores = new Float64Array(classes.length);
  addScores(weights, features, scores);
  for (let index = 0; index < scores.length; index += 1) scores[index] = (scores[index] ?? 0) * scale;
  return scores;
}

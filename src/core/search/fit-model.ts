import type { TextFeatures } from './text-features.ts';
import { bucketCount } from './text-features.ts';

/** A text with the class or classes that answer it (the best first), and what it weighs beside others. */
export interface TaughtRow {
  readonly features: TextFeatures;
  readonly classes: readonly number[];
  readonly weight: number;
}

const rounds = 12;
/** How many weights of all classes are kept. */
const keptWeights = 33_000;
const firstStep = 1;
const startSquares = 0.01;
const shrink = 1e-5;
const leastGradient = 1e-3;
/** What the best answer counts where others are acceptable too; those share the rest. */
const bestShare = 0.8;

/**
 * Multinomial logistic regression with an L2 penalty, by AdaGrad (Duchi, Hazan and Singer 2011). Deterministic: the rows are taken in an
 * order that a seeded generator makes. Weights come back bucket by bucket: `weights[bucket * classCount + class]`.
 */
export function fitClasses(rows: readonly TaughtRow[], classCount: number): Float32Array {
  const weights = new Float32Array(bucketCount * classCount);
  const squares = new Float32Array(weights.length).fill(startSquares);
  const chances = new Float64Array(classCount);
  const teach = (isKept: (place: number) => boolean): void => {
    for (const row of inRounds(rows)) {
      const { buckets, values } = row.features;
      addScores(weights, row.features, chances);
      turnIntoChances(chances);
      for (let index = 0; index < classCount; index += 1) {
        const gradient = ((chances[index] ?? 0) - wantedShare(row.classes, index)) * row.weight;
        if (Math.abs(gradient) < leastGradient) continue;
        for (let at = 0; at < buckets.length; at += 1) {
          const place = (buckets[at] ?? 0) * classCount + index;
          if (isKept(place)) step(weights, squares, place, gradient * (values[at] ?? 0));
        }
      }
    }
  };
  teach(() => true);
  // Few weights say most: the others are left out, since a phone has to fetch them, and those that stay learn once more without them.
  const least = sizeOf(weights, keptWeights);
  for (const [place, weight] of weights.entries()) if (Math.abs(weight) < least) weights[place] = 0;
  squares.fill(startSquares);
  teach((place) => weights[place] !== 0);
  return weights;
}

/** The size that `count` of the weights have at least. */
function sizeOf(weights: Float32Array, count: number): number {
  return weights.map(Math.abs).sort().at(-count) ?? 0;
}

/** A text for one class more: whether it belongs there, and the sum of what the known classes make of it, as a logarithm. */
export interface OneRow {
  readonly features: TextFeatures;
  readonly isOwn: boolean;
  readonly weight: number;
  readonly others: number;
}

/** Weights of one class more, bucket by bucket, beside known classes that stay as they are: logistic regression with an offset. */
export function fitOneClass(rows: readonly OneRow[]): Float32Array {
  const weights = new Float32Array(bucketCount);
  const squares = new Float32Array(bucketCount).fill(startSquares);
  const score = new Float64Array(1);
  for (const { features, isOwn, weight, others } of inRounds(rows)) {
    addScores(weights, features, score);
    const gradient = (1 / (1 + Math.exp(others - (score[0] ?? 0))) - (isOwn ? 1 : 0)) * weight;
    if (Math.abs(gradient) < leastGradient) continue;
    for (let at = 0; at < features.buckets.length; at += 1) {
      step(weights, squares, features.buckets[at] ?? 0, gradient * (features.values[at] ?? 0));
    }
  }
  return weights;
}

/** One step of AdaGrad down a slope, with the pull of the penalty. */
function step(weights: Float32Array, squares: Float32Array, place: number, slope: number): void {
  const weight = weights[place] ?? 0;
  const whole = slope + shrink * weight;
  const square = (squares[place] ?? 0) + whole * whole;
  squares[place] = square;
  weights[place] = weight - (firstStep * whole) / Math.sqrt(square);
}

/** All rows again and again, each round in another order; the generator is that of Numerical Recipes (Press and others 1992), seeded. */
function* inRounds<Row>(rows: readonly Row[]): Generator<Row> {
  const order = [...rows];
  let seed = 1;
  for (let round = 0; round < rounds; round += 1) {
    for (let last = order.length - 1; last > 0; last -= 1) {
      seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
      const other = Math.floor((seed / 2 ** 32) * (last + 1));
      const kept = order[last];
      const moved = order[other];
      if (kept === undefined || moved === undefined) continue;
      order[last] = moved;
      order[other] = kept;
    }
    yield* order;
  }
}

function wantedShare(classes: readonly number[], index: number): number {
  const place = classes.indexOf(index);
  if (place < 0) return 0;
  if (classes.length === 1) return 1;
  return place === 0 ? bestShare : (1 - bestShare) / (classes.length - 1);
}

/** Each class's score: the sum of its weights, times how much of each bucket the text holds. */
export function addScores(
  weights: Float32Array | Int8Array,
  { buckets, values }: TextFeatures,
  scores: Float64Array,
): void {
  const { length } = scores;
  scores.fill(0);
  for (let at = 0; at < buckets.length; at += 1) {
    const value = values[at] ?? 0;
    const row = (buckets[at] ?? 0) * length;
    for (let index = 0; index < length; index += 1)
      scores[index] = (scores[index] ?? 0) + value * (weights[row + index] ?? 0);
  }
}

/** Scores become probabilities that sum to 1 (softmax), in place. */
export function turnIntoChances(scores: Float64Array): void {
  let most = -Infinity;
  for (const score of scores) most = Math.max(most, score);
  let sum = 0;
  for (let index = 0; index < scores.length; index += 1) {
    const share = Math.exp((scores[index] ?? 0) - most);
    scores[index] = share;
    sum += share;
  }
  for (let index = 0; index < scores.length; index += 1) scores[index] = (scores[index] ?? 0) / sum;
}

/** Where the greatest values above zero stand, the greatest first, at most `count`; the first of equal ones. Cost: one pass. */
export function indexesOfGreatest(values: Float64Array, count: number): readonly number[] {
  const greatest: number[] = [];
  for (let index = 0; index < values.length; index += 1) {
    const value = values[index] ?? 0;
    if (value <= 0 || (greatest.length === count && value <= (values[greatest[count - 1] ?? 0] ?? 0))) continue;
    if (greatest.length === count) greatest.pop();
    let place = greatest.length;
    while (place > 0 && (values[greatest[place - 1] ?? 0] ?? 0) < value) place -= 1;
    greatest.splice(place, 0, index);
  }
  return greatest;
}

/** One case of a choice between alternatives, each with what speaks for it; `wanted` are the right ones. */
export interface Choice {
  readonly alternatives: readonly (readonly number[])[];
  readonly wanted: readonly number[];
  /** What it counts beside other cases; 1 where nothing is said. */
  readonly weight?: number;
}

const choiceRounds = 400;
const choiceStep = 0.5;
const choiceShrink = 3e-3;

/**
 * Weights of a conditional logit (McFadden 1974): how much each feature of an alternative speaks for it. A yes-or-no question is the choice
 * between its features and zeros. Gradient ascent with AdaGrad over all cases at once, with an L2 penalty; deterministic.
 */
export function fitChoices(choices: readonly Choice[]): readonly number[] {
  const size = choices[0]?.alternatives[0]?.length ?? 0;
  const weights = new Float64Array(size);
  const squares = new Float64Array(size).fill(1e-6);
  for (let round = 0; round < choiceRounds; round += 1) {
    const slopes = Float64Array.from(weights, (weight) => -choiceShrink * weight);
    for (const { alternatives, wanted, weight = 1 } of choices) {
      const chances = Float64Array.from(alternatives, (features) => weigh(features, weights));
      turnIntoChances(chances);
      const right = wanted.reduce((sum, index) => sum + (chances[index] ?? 0), 0) || 1e-9;
      for (const [index, features] of alternatives.entries()) {
        const chance = chances[index] ?? 0;
        const share = weight * ((wanted.includes(index) ? chance / right : 0) - chance);
        for (let at = 0; at < size; at += 1)
          slopes[at] = (slopes[at] ?? 0) + (share * (features[at] ?? 0)) / choices.length;
      }
    }
    for (let at = 0; at < size; at += 1) {
      const slope = slopes[at] ?? 0;
      squares[at] = (squares[at] ?? 0) + slope * slope;
      weights[at] = (weights[at] ?? 0) + (choiceStep * slope) / Math.sqrt(squares[at] ?? 1);
    }
  }
  return [...weights];
}

/** A sum of features, each times its weight. */
export function weigh(features: readonly number[], weights: ArrayLike<number>): number {
  return features.reduce((sum, feature, at) => sum + feature * (weights[at] ?? 0), 0);
}

import { indexesOfGreatest, turnIntoChances, weigh } from './fit-model.ts';
import type { OpenSearch } from './open-search.ts';
import type { ReadQuery } from './read-query.ts';
import { scoreTrees, type ScoredTree } from './score-trees.ts';
import { scoreClasses } from './taught-model.ts';

/** The trees for a query, best first, with what the taught weights make of them. */
export interface Ranking {
  readonly trees: readonly RankedTree[];
  /** Probability that the query is about nothing of ours. */
  readonly none: number;
  /** Probability that the best class of the model is a tree that is not written yet, given that the query is ours. */
  readonly unwritten: number;
}

/** `score` is the probability that this tree is the one that is looked for, given that one is; `likeness` what the concepts say of it. */
export interface RankedTree extends ScoredTree {
  readonly likeness: number;
}

/** What speaks for each candidate and for "nothing fits", ready to be weighed: shared by the page and by teaching. */
export interface Evidence {
  readonly candidates: readonly ScoredTree[];
  /** For each candidate: logarithm of its chance by the model, score by concepts, score of its best phrase. */
  readonly features: readonly (readonly number[])[];
  readonly refusal: readonly number[];
  readonly unwritten: number;
}

const mostByModel = 16;
const leastLog = -9;

/** Ranks the trees for a query. Cost: the buckets of the query times the classes of the model, and `scoreTrees`. */
export function rankTrees(search: OpenSearch, query: ReadQuery): Ranking {
  const scores = scoreClasses(search.model, query.features);
  const { candidates, features, refusal, unwritten } = gatherEvidence(search, query, scores, scoreTrees(search, query));
  const chances = Float64Array.from(features, (row) => weigh(row, search.model.ranking));
  turnIntoChances(chances);
  return {
    trees: candidates
      .map((tree, at) => ({ ...tree, likeness: tree.score, score: chances[at] ?? 0 }))
      .sort((a, b) => b.score - a.score || a.tree - b.tree),
    none: isUnknown(query) ? 1 : 1 / (1 + Math.exp(-weigh(refusal, search.model.refusal))),
    unwritten,
  };
}

/** Whether a query holds no word that anything here knows: letters alone tell nothing. */
function isUnknown({ features, words, claims, strangers, read }: ReadQuery): boolean {
  if (features.buckets.length === 0) return true;
  return strangers > 0 && words.length === 0 && claims.length === 0 && read.amounts.length === 0;
}

/** Gathers what speaks for what. `scores`: those of the model's classes, changed into chances. `byConcept`: of `scoreTrees`. */
export function gatherEvidence(
  search: OpenSearch,
  query: ReadQuery,
  scores: Float64Array,
  byConcept: readonly ScoredTree[],
): Evidence {
  const { treeOf, none } = search.model;
  const mostOurs = Math.max(-10, greatestBut(none, scores));
  turnIntoChances(scores);
  const likeliest = Math.max(0, greatestBut(none, scores));
  const chanceOf = new Float64Array(search.index.trees.length);
  let unwritten = 0;
  let written = 0;
  for (let index = 0; index < scores.length; index += 1) {
    const chance = scores[index] ?? 0;
    const tree = treeOf[index];
    if (tree !== undefined) {
      chanceOf[tree] = chance;
      written += chance;
    } else if (index !== none) unwritten += chance;
  }
  const known = new Map(byConcept.map((tree) => [tree.tree, tree]));
  for (const tree of indexesOfGreatest(chanceOf, mostByModel)) {
    if (!known.has(tree)) known.set(tree, { tree, score: 0, symptom: 0, symptomScore: 0 });
  }
  const candidates = [...known.values()];
  const noneChance = scores[none] ?? 0;
  const content = query.words.length + query.strangers;
  const [best] = byConcept;
  return {
    candidates,
    features: candidates.map(({ tree, score, symptomScore }) => [
      Math.max(leastLog, Math.log((chanceOf[tree] || 1 / search.index.trees.length) / (written || 1))),
      score,
      symptomScore,
    ]),
    refusal: [
      1,
      logOdds(noneChance),
      best?.score ?? 0,
      best?.symptomScore ?? 0,
      query.strangers / Math.max(1, content),
      Math.min(3, query.strangers),
      query.strangers > 0 ? 1 : 0,
      query.doors.some(({ isHint, isAside }) => !isHint && !isAside) ? 1 : 0,
      Math.min(2, query.doors.filter(({ isHint }) => isHint).length),
      Math.min(4, query.claims.length),
      query.claims.reduce((sum, { weight }) => sum + weight, 0),
      query.isOurs ? 1 : 0,
      mostOurs,
      likeliest / (1 - noneChance + 1e-9),
      query.corrected / Math.max(1, content),
      Math.min(3, query.corrected),
      Math.log(1 + content),
    ],
    unwritten: unwritten + written === 0 ? 0 : unwritten / (unwritten + written),
  };
}

/** The greatest of the scores beside one. */
function greatestBut(one: number, scores: Float64Array): number {
  let greatest = -Infinity;
  for (let index = 0; index < scores.length; index += 1) {
    if (index !== one) greatest = Math.max(greatest, scores[index] ?? 0);
  }
  return greatest;
}

function logOdds(chance: number): number {
  return Math.max(leastLog, Math.min(-leastLog, Math.log((chance + 1e-9) / (1 - chance + 1e-9))));
}

import { indexesOfGreatest } from './fit-model.ts';
import { featureOf, fine, gone, named, type Polarity } from './lexicon.ts';
import { forEachPosting, type OpenSearch, symptomsOf } from './open-search.ts';
import type { Mention, ReadPhrase } from './read-phrase.ts';
import type { Claim, ReadQuery } from './read-query.ts';

/** A tree with how well it fits, 0 to 1, and the symptom phrase that fits best. */
export interface ScoredTree {
  readonly tree: number;
  readonly score: number;
  /** Number of the symptom phrase, and how well it fits by itself, 0 to 1. */
  readonly symptom: number;
  readonly symptomScore: number;
}

/**
 * How far a tree's way of speaking of a concept answers the query's, by what the query says and what the tree says.
 * Below zero: it speaks against. Our judgement, held by tests/bench/search.ts.
 */
const agreement: Readonly<Record<Polarity, Readonly<Record<Polarity, number>>>> = {
  [named]: { [named]: 1, [gone]: 0.9, [fine]: 0.4 },
  [gone]: { [named]: 0.6, [gone]: 1, [fine]: -0.4 },
  [fine]: { [named]: -0.3, [gone]: -0.7, [fine]: 1 },
};
const polarities = [named, gone, fine] as const;
/** What a concept that lies near counts beside the one itself. */
const nearShare = 0.45;
const candidates = 16;
/** Shares of the whole tree, and of its nearest symptom phrase, in a score. */
const profileShare = 0.65;

/** The best trees for a query, best first; ties in the order of slugs. Candidates are cut by the index before phrases are compared. */
export function scoreTrees(search: OpenSearch, query: ReadQuery): readonly ScoredTree[] {
  const total = new Float64Array(search.index.trees.length);
  let weight = query.foreignWeight;
  for (const claim of query.claims) {
    if (!claim.isPassing) weight += claim.weight;
    addClaim(search, claim, total);
  }
  for (const { stem, weight: wordWeight, isConcept } of query.words) {
    if (!isConcept) weight += wordWeight;
    forEachPosting(search.wordPostings.get(stem), (tree, strength) => {
      total[tree] = (total[tree] ?? 0) + wordWeight * strength;
    });
  }
  if (weight === 0) return [];
  const slugOf = (tree: number): string => search.index.trees[tree]?.slug ?? '';
  const byScore = (a: { tree: number; score: number }, b: { tree: number; score: number }): number =>
    b.score - a.score || (slugOf(a.tree) < slugOf(b.tree) ? -1 : 1);
  return indexesOfGreatest(total, candidates)
    .map((tree) => ({ tree, score: Math.min(1, (total[tree] ?? 0) / weight) }))
    .map(({ tree, score }) => {
      const symptom = bestSymptom(search, query, tree, weight);
      return {
        tree,
        score: Math.max(0, profileShare * score + (1 - profileShare) * symptom.score),
        symptom: symptom.number,
        symptomScore: symptom.score,
      };
    })
    .sort(byScore);
}

/** Adds a claim's worth to every tree: its best agreement, and what speaks against. */
function addClaim(search: OpenSearch, claim: Claim, total: Float64Array): void {
  const best = new Float64Array(total.length);
  const worst = new Float64Array(total.length);
  const take = (concept: number, share: number): void => {
    for (const polarity of polarities) {
      const factor = agreement[claim.polarity][polarity] * share;
      forEachPosting(search.postings.get(featureOf(concept, polarity)), (tree, strength) => {
        const value = factor * strength;
        if (value > (best[tree] ?? 0)) best[tree] = value;
        else if (value < (worst[tree] ?? 0)) worst[tree] = value;
      });
    }
  };
  take(claim.concept, 1);
  for (const near of search.lexicon.near[claim.concept] ?? []) take(near, nearShare);
  for (let tree = 0; tree < total.length; tree += 1) {
    total[tree] = (total[tree] ?? 0) + claim.weight * ((best[tree] ?? 0) + (worst[tree] ?? 0));
  }
}

/** The symptom phrase of a tree that is nearest to the query: share of the query it answers, and of itself that is asked for. */
function bestSymptom(
  search: OpenSearch,
  query: ReadQuery,
  tree: number,
  weight: number,
): { number: number; score: number } {
  let best = { number: 0, score: 0 };
  for (const [number, phrase] of symptomsOf(search, tree).entries()) {
    const score = comparePhrase(search, query, phrase, weight);
    if (score > best.score) best = { number, score };
  }
  return best;
}

/** Shares of "how much of the query" and "how much of the phrase"; what each two things in the same order add. */
const recallShare = 0.55;
const orderBonus = 0.05;

function comparePhrase(search: OpenSearch, query: ReadQuery, phrase: ReadPhrase, weight: number): number {
  let answered = 0;
  let inOrder = 0;
  let lastEnd = -1;
  const met = new Set<Mention>();
  for (const claim of query.claims) {
    let best = 0;
    let bestMention: Mention | undefined;
    for (const mention of phrase.mentions) {
      const value = agreementOf(search, claim, mention);
      if (Math.abs(value) > Math.abs(best)) {
        best = value;
        bestMention = mention;
      }
    }
    answered += claim.weight * best;
    if (bestMention === undefined || best <= 0) continue;
    met.add(bestMention);
    if (lastEnd >= 0 && bestMention.start >= lastEnd) inOrder += 1;
    lastEnd = bestMention.end;
  }
  if (met.size === 0) return 0;
  let asked = 0;
  let all = 0;
  for (const mention of phrase.mentions) {
    const rarity = search.conceptRarity[mention.concept] ?? 1;
    all += rarity;
    if (met.has(mention)) asked += rarity;
  }
  const recall = Math.max(0, Math.min(1, answered / weight));
  const precision = all === 0 ? 0 : asked / all;
  return Math.min(
    1,
    recallShare * recall + (1 - recallShare) * precision * Math.min(1, recall * 2) + orderBonus * Math.min(2, inOrder),
  );
}

/** How far one mention of a phrase answers a claim, −1 to 1. */
export function agreementOf(search: OpenSearch, claim: Mention, mention: Mention): number {
  if (claim.concept === mention.concept) return agreement[claim.polarity][mention.polarity];
  const isNear = search.lexicon.near[claim.concept]?.includes(mention.concept) === true;
  return isNear ? nearShare * agreement[claim.polarity][mention.polarity] : 0;
}

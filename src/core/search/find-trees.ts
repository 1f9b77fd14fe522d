import { gone } from './lexicon.ts';
import type { OpenSearch } from './open-search.ts';
import { carryOf } from './carry-evidence.ts';
import { chooseQuestion, type Question } from './choose-question.ts';
import { explainMatch, type Match } from './explain-match.ts';
import { hearSigns, type SaidSigns } from './hear-signs.ts';
import { readQuery, type ReadQuery } from './read-query.ts';
import { scoreTrees, type ScoredTree } from './score-trees.ts';
import type { NextDoor } from '../model/thesaurus.ts';

/** What a search says. */
export interface SearchAnswer {
  /** Best first, at most six; empty when nothing fits. */
  readonly results: readonly SearchResult[];
  /** Even the best fits only weakly. */
  readonly isWeak: boolean;
  /** The query is about something that is not in these pages. */
  readonly nextDoor: NextDoor | undefined;
  /** Separates results that fit about equally. */
  readonly question: Question | undefined;
  /** What the query told in passing, and what was answered. */
  readonly said: SaidSigns;
  /** Where a query holds two symptoms: each with the tree that fits it best. */
  readonly symptoms: readonly { readonly text: string; readonly tree: string }[];
  /** Stems that nobody knows yet; see `makeCorrector`. */
  readonly unread: readonly string[];
}

export interface SearchResult extends Match {
  readonly tree: string;
  readonly title: string;
  readonly block: string;
  /** How well it fits, 0 to 1. */
  readonly score: number;
  readonly isWeak: boolean;
  /** Number of checks in the tree. */
  readonly checks: number;
  /** Fragment with what was told, for the tree's address; empty where the tree asks nothing of it. */
  readonly carry: string;
}

export interface SearchOptions {
  /** The last word may be unfinished. */
  readonly isTyping?: boolean;
  /** Answers to questions asked before. */
  readonly said?: SaidSigns;
}

/** Below the first nothing fits; below the second a fit is weak. Set on tests/bench/queries-tuned.tsv. */
export const leastScore = 0.27;
export const weakBelow = 0.42;
const leastShareOfBest = 0.45;
const most = 6;

/**
 * Ranks the trees for a query in a person's own words. Any string may come in; nothing throws. The same query gives the
 * same answer always. Cost: the postings of the query's words, then a comparison with the phrases of sixteen candidates.
 */
export function findTrees(search: OpenSearch, text: string, options: SearchOptions = {}): SearchAnswer {
  const query = readQuery(search, text, options.isTyping ?? false);
  const heard = hearSigns(search, query);
  const said = { ...heard, ...options.said };
  const nextDoor = findNextDoor(search, query);
  const nothing = {
    results: [],
    isWeak: false,
    nextDoor,
    question: undefined,
    said,
    symptoms: [],
    unread: query.unread,
  };
  if (nextDoor !== undefined) return nothing;
  const scored = weighSigns(search, scoreTrees(search, query), heard, options.said ?? {});
  const best = scored[0]?.score ?? 0;
  if (best < leastScore) return nothing;
  const symptoms = separateSymptoms(search, query, text);
  const fitting = keepBoth(
    search,
    scored.filter(({ score }) => score >= Math.max(leastScore * 0.8, best * leastShareOfBest)),
    symptoms,
  ).slice(0, most);
  return {
    results: fitting.flatMap((fit) => describe(search, query, fit, said)),
    isWeak: best < weakBelow,
    nextDoor: undefined,
    question: chooseQuestion(search, fitting, said),
    said,
    symptoms,
    unread: query.unread,
  };
}

function describe(search: OpenSearch, query: ReadQuery, fit: ScoredTree, said: SaidSigns): readonly SearchResult[] {
  const tree = search.index.trees[fit.tree];
  if (tree === undefined) return [];
  const { slug, title, block, checks } = tree;
  return [
    {
      tree: slug,
      title,
      block: search.index.blocks[block] ?? block,
      score: Math.min(1, Math.round(fit.score * 1000) / 1000),
      isWeak: fit.score < weakBelow,
      checks,
      carry: carryOf(search, tree, query, said),
      ...explainMatch(search, query, fit),
    },
  ];
}

/** The subject next door that the query is about. One told as a circumstance is not it; nor, unless lethal, one beside a unit of ours. */
function findNextDoor(search: OpenSearch, query: ReadQuery): NextDoor | undefined {
  const isOurs = query.claims.some(({ concept }) => search.lexicon.ours.has(concept));
  const found = query.read.nextDoor
    .filter(({ isHint, isAside }) => !isHint && !isAside)
    .flatMap(({ subject }) => search.index.nextDoor[subject] ?? []);
  return found.find(({ isLethal }) => isLethal) ?? (isOurs ? undefined : found[0]);
}

const heardAgainst = 0.75;
const heardFor = 1.06;
const answeredAgainst = 0.4;
const answeredFor = 1.15;

/** Raises trees that expect what was told, lowers those that exclude it. */
function weighSigns(
  search: OpenSearch,
  scored: readonly ScoredTree[],
  heard: SaidSigns,
  answered: SaidSigns,
): readonly ScoredTree[] {
  const weighed = scored.map((fit) => {
    const expected = search.index.trees[fit.tree]?.signs ?? {};
    let score = fit.score;
    for (const [sign, answer] of Object.entries({ ...heard, ...answered })) {
      if (expected[sign] === undefined) continue;
      const isAnswered = Object.hasOwn(answered, sign);
      if (expected[sign] === answer) score *= isAnswered ? answeredFor : heardFor;
      else score *= isAnswered ? answeredAgainst : heardAgainst;
    }
    return { ...fit, score };
  });
  return weighed.toSorted((a, b) => b.score - a.score);
}

const leastSymptomScore = 0.6;
const leastSymptomWeight = 0.35;

/** The clauses of a query that are symptoms of different trees, each by itself well matched; empty where there is only one. */
function separateSymptoms(search: OpenSearch, query: ReadQuery, text: string): SearchAnswer['symptoms'] {
  const clauses = [...new Set(query.claims.map(({ clause }) => clause))].sort((a, b) => a - b);
  if (clauses.length < 2 || clauses.length > 6) return [];
  const found = clauses.flatMap((clause) => {
    const claims = query.claims.filter((claim) => claim.clause === clause);
    const weight = claims.reduce((sum, claim) => sum + (claim.isPassing || claim.isAside ? 0 : claim.weight), 0);
    // "The keyboard beeps" tells what works: no symptom.
    const isPassing = claims.some((claim) => claim.isPassing) && !claims.some(({ polarity }) => polarity === gone);
    if (weight < leastSymptomWeight || isPassing) return [];
    const words = query.words.filter((word) => word.clause === clause);
    const [best] = scoreTrees(search, { ...query, claims, words, foreignWeight: 0 });
    const tree = search.index.trees[best?.tree ?? -1]?.slug;
    if (best === undefined || tree === undefined || best.score < leastSymptomScore) return [];
    const [from, to] = query.read.clauses[clause] ?? [0, 0];
    return [{ text: text.slice(from, to).trim(), tree }];
  });
  return new Set(found.map(({ tree }) => tree)).size > 1 ? found : [];
}

/** Moves the best tree of each symptom up among the first, below the best of all. */
function keepBoth(
  search: OpenSearch,
  fitting: readonly ScoredTree[],
  symptoms: SearchAnswer['symptoms'],
): readonly ScoredTree[] {
  const kept = new Set(symptoms.map(({ tree }) => tree));
  const isKept = ({ tree }: ScoredTree): boolean => kept.has(search.index.trees[tree]?.slug ?? '');
  const [first, ...rest] = fitting;
  return first === undefined ? [] : [first, ...rest.filter(isKept), ...rest.filter((fit) => !isKept(fit))];
}

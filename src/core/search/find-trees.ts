import { gone, isUntroubled } from './lexicon.ts';
import type { OpenSearch } from './open-search.ts';
import { carryOf, hearSigns, type SaidSigns } from './carry-evidence.ts';
import { chooseQuestion, type Question } from './choose-question.ts';
import { findPages } from './find-pages.ts';
import { explainMatch, type Match } from './explain-match.ts';
import { readQuery, type ReadQuery } from './read-query.ts';
import { type RankedTree, rankTrees } from './rank-trees.ts';
import type { NamedPage } from './search-index.ts';
import type { NextDoor } from '../model/thesaurus.ts';

/** What a search says. */
export interface SearchAnswer {
  /** Best first, at most six, or three while the query is being typed; empty when nothing fits. */
  readonly results: readonly SearchResult[];
  /** Where nothing fits: the trees that are nearest, best first. */
  readonly near: readonly SearchResult[];
  /** What is meant is ours, and no tree covers it yet. */
  readonly isUnwritten: boolean;
  /** Units, parts, targets and cautions that the query names. */
  readonly pages: readonly NamedPage[];
  /** Even the best fits only weakly. */
  readonly isWeak: boolean;
  /** The query is about something that is not in these pages. */
  readonly nextDoor: NextDoor | undefined;
  /** A danger that the query speaks of: shown before anything else. */
  readonly warning: NextDoor | undefined;
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

/** From such a probability on that a query is about nothing of ours, nothing fits; from the second on a fit is weak. Chosen by leaving hands out. */
const refuseFrom = 0.7;
const weakFrom = 0.25;
/** The same where a unit of ours is named and what is not ours only stands beside it: "dead, plugged in beside the washing machine". */
const refuseBesideFrom = 0.95;
/** So probable that a tree is meant which nobody has written yet: what is shown is only a weak fit, from the second on no fit at all. */
const unwrittenFrom = 0.6;
const unwrittenForSure = 0.95;
const leastScore = 0.02;
const most = 6;
/** While a person types: fewer to lay out at every key, and fewer that jump. */
const mostWhileTyping = 3;
/** A nearest tree must speak of what was asked for at least so far, by its concepts. */
const leastLikeness = 0.25;
const mostNear = 2;

/**
 * Ranks the trees for a query in a person's own words. Any string may come in; nothing throws. The same query gives the
 * same answer always. Cost: see `rankTrees`, once for the query and once for each of its clauses.
 */
export function findTrees(search: OpenSearch, text: string, options: SearchOptions = {}): SearchAnswer {
  const query = readQuery(search, text, options.isTyping ?? false);
  const heard = hearSigns(search, query);
  const said = { ...heard, ...options.said };
  const ranking = rankTrees(search, query);
  const isRefused = ranking.none >= (isBesideOthers(query) ? refuseBesideFrom : refuseFrom);
  const nextDoor = findNextDoor(search, query, isRefused);
  const ranked = weighSigns(search, ranking.trees, heard, options.said ?? {});
  const [warning] = query.warnings;
  const pages = findPages(search, text);
  const isForeign = nextDoor !== undefined || isRefused || ranked.length === 0;
  const isUnwritten =
    !isForeign &&
    (ranking.unwritten >= unwrittenForSure ||
      (ranking.unwritten >= unwrittenFrom && ranked.every(({ likeness }) => likeness < leastLikeness)));
  const isWeak = ranking.none >= weakFrom || ranking.unwritten >= unwrittenFrom;
  const tell = (fits: readonly RankedTree[]): readonly SearchResult[] =>
    fits.flatMap((fit) => describe(search, query, fit, said, isWeak));
  if (isForeign || isUnwritten) {
    const near = ranked
      .filter(({ likeness }) => likeness >= leastLikeness)
      .toSorted((a, b) => b.likeness - a.likeness)
      .slice(0, mostNear);
    return {
      results: [],
      pages,
      near: nextDoor === undefined ? tell(near) : [],
      isUnwritten,
      isWeak: false,
      nextDoor,
      warning: nextDoor?.isLethal ? undefined : warning,
      question: undefined,
      said,
      symptoms: [],
      unread: query.unread,
    };
  }
  const symptoms = separateSymptoms(search, query, text, options.isTyping ?? false);
  const fitting = keepBoth(search, ranked, symptoms).slice(0, options.isTyping ? mostWhileTyping : most);
  return {
    results: tell(fitting),
    pages,
    near: [],
    isUnwritten: false,
    isWeak,
    nextDoor: undefined,
    warning,
    question: chooseQuestion(search, fitting, said),
    said,
    symptoms,
    unread: query.unread,
  };
}

function isBesideOthers({ isOurs, doors }: ReadQuery): boolean {
  return isOurs && doors.length > 0 && doors.every(({ isAside }) => isAside);
}

function describe(
  search: OpenSearch,
  query: ReadQuery,
  fit: RankedTree,
  said: SaidSigns,
  isWeak: boolean,
): readonly SearchResult[] {
  const tree = search.index.trees[fit.tree];
  if (tree === undefined) return [];
  const { slug, title, block, checks } = tree;
  return [
    {
      tree: slug,
      title,
      block: search.index.blocks[block] ?? block,
      score: Math.min(1, Math.round(fit.score * 1000) / 1000),
      isWeak,
      checks,
      carry: carryOf(search, tree, query, said),
      ...explainMatch(search, query, fit),
    },
  ];
}

/**
 * A lethal subject that the query names, however it is told unless as a circumstance; else the first subject where
 * nothing of ours fits, or apparatus of another kind, spelt as it is, where no unit of ours is named.
 */
function findNextDoor(search: OpenSearch, query: ReadQuery, isForeign: boolean): NextDoor | undefined {
  const found = query.doors
    .filter(({ isHint, isAside }) => !isHint && !isAside)
    .flatMap(({ subject, surety }) => {
      const door = search.index.nextDoor[subject];
      return door === undefined ? [] : [{ door, isSpelt: surety === 1 }];
    });
  const chosen =
    found.find(({ door }) => door.isLethal) ??
    (isForeign ? found[0] : query.isOurs ? undefined : found.find(({ door, isSpelt }) => door.isApart && isSpelt));
  return chosen?.door;
}

/** How many times more probable a tree becomes by a sign. What was told in passing is in the words already. Our judgement. */
const heardAgainst = 0.6;
const heardFor = 1.1;
const answeredAgainst = 0.1;
const answeredFor = 1.5;

/** Raises trees that expect what was told, lowers those that exclude it. */
function weighSigns(
  search: OpenSearch,
  scored: readonly RankedTree[],
  heard: SaidSigns,
  answered: SaidSigns,
): readonly RankedTree[] {
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
  const sum = weighed.reduce((total, { score }) => total + score, 0) || 1;
  return weighed
    .map((fit) => ({ ...fit, score: fit.score / sum }))
    .toSorted((a, b) => b.score - a.score || a.tree - b.tree);
}

/** How sure each clause must be of its tree by itself, and how sure it must be that it is ours. */
const leastSymptomScore = 0.6;
const mostSymptomNone = 0.3;

/**
 * The clauses of a query that are symptoms of different trees, each by itself well matched; empty where there is only one. The last clause
 * of a text that is being typed is heard once it is finished.
 */
function separateSymptoms(
  search: OpenSearch,
  query: ReadQuery,
  text: string,
  isTyping: boolean,
): SearchAnswer['symptoms'] {
  const clauses = [...new Set(query.claims.map(({ clause }) => clause))].sort((a, b) => a - b);
  if (clauses.length < 2 || clauses.length > 6) return [];
  const found = (isTyping ? clauses.slice(0, -1) : clauses).flatMap((clause) => {
    const claims = query.claims.filter((claim) => claim.clause === clause);
    // "The keyboard beeps" tells what works, "when the heater cuts in" a circumstance: no symptom.
    if (claims.every((claim) => claim.isPassing || claim.isAside || isUntroubled(search.lexicon.troubles, claim)))
      return [];
    if (claims.some(({ isPassing }) => isPassing) && !claims.some(({ polarity }) => polarity === gone)) return [];
    const [from, to] = query.read.clauses[clause] ?? [0, 0];
    const part = text.slice(from, to).trim();
    const tree = search.index.trees[treeOfClause(search, part) ?? -1]?.slug;
    return tree === undefined ? [] : [{ text: part, tree }];
  });
  return new Set(found.map(({ tree }) => tree)).size > 1 ? found : [];
}

const mostClauses = 200;

/** The tree that a clause by itself surely means. */
function treeOfClause(search: OpenSearch, clause: string): number | undefined {
  // What a misspelt word means may have been found since.
  const key = `${search.corrections.size} ${clause}`;
  if (search.clauses.has(key)) return search.clauses.get(key);
  const { trees, none, unwritten } = rankTrees(search, readQuery(search, clause, false));
  const [best] = trees;
  const isSure =
    best !== undefined && best.score >= leastSymptomScore && none <= mostSymptomNone && unwritten < unwrittenFrom;
  if (search.clauses.size >= mostClauses) search.clauses.clear();
  search.clauses.set(key, isSure ? best.tree : undefined);
  return isSure ? best.tree : undefined;
}

/** So sure the best tree of the whole must be to go first where two symptoms by themselves lead to others. */
const surelyBest = 0.4;

/** The trees that fit at all: where there are two symptoms, the best of each goes before the rest, however little the other leaves it. */
function keepBoth(
  search: OpenSearch,
  ranked: readonly RankedTree[],
  symptoms: SearchAnswer['symptoms'],
): readonly RankedTree[] {
  const kept = new Set(symptoms.map(({ tree }) => tree));
  const isKept = ({ tree, score }: RankedTree, place: number): boolean =>
    kept.has(search.index.trees[tree]?.slug ?? '') || (place === 0 && score >= surelyBest);
  const first = ranked.filter(isKept).map((fit) => ({ ...fit, score: Math.max(fit.score, leastScore) }));
  const rest = ranked.filter((fit, place) => !isKept(fit, place) && (fit.score >= leastScore || place === 0));
  return [...first, ...rest];
}

import { agreementOf, scoreTrees, type ScoredTree } from './score-trees.ts';
import { type OpenSearch, symptomsOf } from './open-search.ts';
import { type ReadQuery, readQuery } from './read-query.ts';
import type { NextDoor } from './thesaurus.ts';
export interface SearchResult { readonly tree: string; readonly score: number; readonly symptom: string }
export interface SearchAnswer { readonly results: readonly SearchResult[]; readonly nextDoor: NextDoor | undefined; readonly unread: readonly string[]; readonly query: ReadQuery; readonly scored: readonly ScoredTree[] }
export function findTrees(search: OpenSearch, text: string, corrector?: (w: string) => { stem: string; surety: number } | undefined): SearchAnswer {
  let query = readQuery(search, text, false);
  if (corrector && query.unread.length) { for (const w of query.unread) search.corrections.set(w, corrector(w)); query = readQuery(search, text, false); }
  const scored = scoreTrees(search, query);
  const door = query.read.nextDoor.filter(d=>!d.isHint&&!d.isAside);
  const ours = query.claims.some(c=>search.lexicon.ours.has(c.concept));
  let nextDoor: NextDoor|undefined;
  for (const d of door) { const n=search.index.nextDoor[d.subject]; if (n&&(n.isLethal||!ours)) { if(!nextDoor||n.isLethal) nextDoor=n; } }
  const results = nextDoor ? [] : scored.filter(s=>scored[0]!.score>=0.27&&s.score>=0.2).map(s=>({tree:search.index.trees[s.tree]?.slug??'',score:s.score,symptom:search.index.trees[s.tree]?.symptoms[s.symptom]??''}));
  void agreementOf; void symptomsOf;
  return { results, nextDoor, unread: query.unread, query, scored };
}

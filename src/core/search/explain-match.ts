import { type OpenSearch, symptomsOf } from './open-search.ts';
import type { ReadQuery } from './read-query.ts';
import { agreementOf, type ScoredTree } from './score-trees.ts';

/** Which symptom phrase matched, and why. */
export interface Match {
  readonly symptom: string;
  /** Parts of the phrase that answer the query, as [start, end) in characters, in order and apart. */
  readonly marks: readonly (readonly [start: number, end: number])[];
  /** What of the query met what of the phrase: words of the query to words of the phrase. */
  readonly because: readonly (readonly [said: string, met: string])[];
}

/** Explains a result by its best symptom phrase. */
export function explainMatch(search: OpenSearch, query: ReadQuery, { tree, symptom }: ScoredTree): Match {
  const text = search.index.trees[tree]?.symptoms[symptom] ?? '';
  const phrase = symptomsOf(search, tree)[symptom];
  const met = new Map<string, { said: string; start: number; end: number }>();
  for (const claim of query.claims) {
    for (const mention of phrase?.mentions ?? []) {
      if (agreementOf(search, claim, mention) <= 0) continue;
      const key = `${mention.start}-${mention.end}`;
      if (!met.has(key))
        met.set(key, { said: query.text.slice(claim.start, claim.end), start: mention.start, end: mention.end });
    }
  }
  for (const { stem } of query.words) {
    const word = phrase?.words.find((other) => other.stem === stem);
    if (word !== undefined) met.set(`${word.start}-${word.end}`, { said: stem, start: word.start, end: word.end });
  }
  const found = [...met.values()].sort((a, b) => a.start - b.start);
  return {
    symptom: text,
    marks: joinMarks(found.map(({ start, end }) => [start, end])),
    because: found.map(({ said, start, end }) => [said, text.slice(start, end)]),
  };
}

function joinMarks(marks: readonly (readonly [number, number])[]): readonly (readonly [number, number])[] {
  const joined: [number, number][] = [];
  for (const [start, end] of marks) {
    const last = joined.at(-1);
    if (last !== undefined && start <= last[1]) last[1] = Math.max(last[1], end);
    else joined.push([start, end]);
  }
  return joined;
}

import type { OpenSearch } from './open-search.ts';
import type { ReadQuery } from './read-query.ts';

/** Signs of signs.yaml with their answers. */
export type SaidSigns = Readonly<Record<string, 'yes' | 'no'>>;

/** What a query tells in passing about signs ("transformer hums"). A sign told both ways is not told. */
export function hearSigns(search: OpenSearch, query: ReadQuery): SaidSigns {
  const heard = new Map<string, 'yes' | 'no' | 'both'>();
  for (const { sign, answer, concept, polarity } of search.signAspects) {
    const isTold = query.claims.some(
      (claim) => claim.concept === concept && !claim.isAside && (polarity === undefined || claim.polarity === polarity),
    );
    if (!isTold) continue;
    const before = heard.get(sign);
    heard.set(sign, before === undefined || before === answer ? answer : 'both');
  }
  return Object.fromEntries(
    [...heard].flatMap(([sign, answer]) => (answer === 'both' ? [] : [[sign, answer] as const])),
  );
}

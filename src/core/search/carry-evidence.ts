import type { Amount } from './read-tokens.ts';
import type { OpenSearch } from './open-search.ts';
import type { ReadQuery } from './read-query.ts';
import type { IndexedTree } from './search-index.ts';

/**
 * What was told, as the fragment of a tree's address (without `#`): a sign answers the check that asks for it, a rail read
 * off answers the first check of that target. Empty where the tree asks for neither.
 * @example "5.02 on the rail" gives `rail-bare=5.02V` in a tree whose check `rail-bare` reads that target
 */
export function carryOf(search: OpenSearch, tree: IndexedTree, query: ReadQuery, said: SaidSigns): string {
  const answers = new Map<string, string>();
  for (const [sign, answer] of Object.entries(said)) {
    const check = Object.hasOwn(tree.signChecks, sign) ? tree.signChecks[sign] : undefined;
    if (check !== undefined) answers.set(check, answer);
  }
  for (const amount of query.read.amounts) {
    const check = amount.isExact ? checkReadBy(search, tree, amount) : undefined;
    if (check !== undefined) answers.set(check, `${amount.value}V`);
  }
  return [...answers].map(([check, value]) => `${check}=${value}`).join('&');
}

function checkReadBy(search: OpenSearch, tree: IndexedTree, { quantity, value }: Amount): string | undefined {
  if (quantity !== 'voltage') return undefined;
  const meaning = search.lexicon.amounts.find(
    (row) => row.quantity === quantity && value >= row.from && value <= row.to,
  );
  const target = meaning?.target.find((name) => Object.hasOwn(tree.readings, name));
  return target === undefined ? undefined : tree.readings[target];
}

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

import type { OpenSearch } from './open-search.ts';
import { readTokens } from './read-tokens.ts';
import type { NamedPage } from './search-index.ts';

const most = 3;
/** Of a title's words so many must be said, unless all that is said stands in the title. */
const leastShare = 0.99;

/** Letters of a logic family between the number of its series and its own: 74LS244 is a 74244 for anyone who looks for pins. */
const familyLetters = /^(54|74)(?:ls|hc|hct|als|as|s|l|h|f|ac|act|c)(\d{2,4})$/;

/**
 * Pages that a query names: a part by its number, a unit, a target or a caution by the words of its title. The best first; at most three.
 * @example "74ls244" gives the part `74244`; "leaking battery" the caution `leaking-battery`
 */
export function findPages(search: OpenSearch, text: string): readonly NamedPage[] {
  const stems = readTokens(text).map(({ stem }) => stem.replace(familyLetters, '74$2'));
  const said = new Set(stems.filter((stem) => stem.length > 1 && !isOrdinary(search, stem)));
  if (said.size === 0) return [];
  const found: { page: NamedPage; score: number }[] = [];
  for (const page of search.index.pages) {
    const [kind, slug, , also = ''] = page;
    if (kind === 'part') {
      const isNamed = said.has(slug) || also.split(' ').some((number) => said.has(number));
      if (isNamed) found.push({ page, score: 3 });
      continue;
    }
    const title = titleStems(search, page);
    const met = [...title].filter((stem) => said.has(stem)).length;
    const isWhole = met / title.size >= leastShare;
    const isWithin = met === said.size && (met > 1 || title.size < 3);
    if (met > 0 && (isWhole || isWithin)) found.push({ page, score: (kind === 'unit' ? 2 : 0) + met / title.size });
  }
  return found
    .sort((a, b) => b.score - a.score)
    .slice(0, most)
    .map(({ page }) => page);
}

function isOrdinary(search: OpenSearch, stem: string): boolean {
  return search.lexicon.phrases.get(stem)?.some(({ kind }) => kind !== 'concept' && kind !== 'next-door') ?? false;
}

function titleStems(search: OpenSearch, page: NamedPage): ReadonlySet<string> {
  const known = search.pageStems.get(page);
  if (known !== undefined) return known;
  const [, , title] = page;
  const stems = new Set(
    readTokens(title)
      .map(({ stem }) => stem)
      .filter((stem) => stem.length > 1 && !isOrdinary(search, stem)),
  );
  search.pageStems.set(page, stems);
  return stems;
}

import type { Marker } from './lexicon.ts';
import type { CalledPage, OpenSearch } from './open-search.ts';
import { readTokens } from './read-tokens.ts';
import type { NamedPage } from './search-index.ts';

const most = 3;
const markers: ReadonlySet<string> = new Set<Marker>(['before', 'after', 'fine', 'boundary', 'circumstance']);

/** Letters of a logic family between the number of its series and its own: 74LS244 is a 74244 for anyone who looks for pins. */
const familyLetters = /^(54|74)(?:ls|hc|hct|als|as|s|l|h|f|ac|act|c)(\d{2,4})$/;

/**
 * Pages that a query names: a part by its number, a unit, a target or a caution by the words of its title. The best first; at most three.
 * @example "74ls244" gives the part `74244`; "leaking battery" the caution `leaking-battery`
 */
export function findPages(search: OpenSearch, text: string): readonly NamedPage[] {
  const stems = readTokens(text).map(({ stem }) => stem.replace(familyLetters, '74$2'));
  const said = new Set(stems.filter((stem) => stem.length > 1 && !isMarker(search, stem)));
  if (said.size === 0) return [];
  const byStem = pagesByStem(search);
  const called = new Set([...said].flatMap((stem) => byStem.get(stem) ?? []));
  const found: { called: CalledPage; score: number }[] = [];
  for (const each of called) {
    const { page, all, name } = each;
    if (page[0] === 'part') {
      found.push({ called: each, score: 3 });
      continue;
    }
    const met = [...all].filter((stem) => said.has(stem)).length;
    const isWhole = name.length > 0 && name.every((stem) => said.has(stem));
    const isWithin = met === said.size && (met > 1 || all.size < 3);
    // A unit goes by its first name.
    const isCalled = page[0] === 'unit' && said.has(name[0] ?? '');
    if (isWhole || isWithin || isCalled) found.push({ called: each, score: (isCalled ? 2 : 0) + met / all.size });
  }
  return found
    .sort((a, b) => b.score - a.score || a.called.number - b.called.number)
    .slice(0, most)
    .map(({ called: { page } }) => page);
}

/** "No", "works", "and": words that are about other words. */
function isMarker(search: OpenSearch, stem: string): boolean {
  return search.lexicon.phrases.get(stem)?.some(({ kind }) => markers.has(kind)) ?? false;
}

function isOrdinary(search: OpenSearch, stem: string): boolean {
  return search.lexicon.phrases.get(stem)?.some(({ kind }) => kind !== 'concept' && kind !== 'next-door') ?? false;
}

/** The pages by what calls them: a part by its numbers, the others by the words of their titles; made once. */
function pagesByStem(search: OpenSearch): ReadonlyMap<string, readonly CalledPage[]> {
  const { pagesByStem: known } = search;
  if (known.size > 0) return known;
  for (const [number, page] of search.index.pages.entries()) {
    const [kind, slug, title, also = ''] = page;
    const all = new Set(
      readTokens(title)
        .map(({ stem }) => stem)
        .filter((stem) => stem.length > 1 && !isMarker(search, stem)),
    );
    const called = { page, number, all, name: [...all].filter((stem) => !isOrdinary(search, stem)) };
    for (const stem of new Set(kind === 'part' ? [slug, ...also.split(' ')] : all)) {
      const others = known.get(stem);
      if (others === undefined) known.set(stem, [called]);
      else others.push(called);
    }
  }
  return known;
}

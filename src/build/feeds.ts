import { escapeXml } from '#core/figure/sheet.ts';
import { guidePages, type Place, singlePages } from '#core/link/address.ts';
import type { MakeAddress } from '#core/link/published-data.ts';
import { compareTexts } from '#core/log/history.ts';
import type { FaultTree } from '#core/model/fault-tree.ts';
import type { Library } from '#core/model/library.ts';

/** A feed is read again and again: the newest trees are enough. */
const mostEntries = 30;

/**
 * The feed of new trees, as RFC 4287 (Atom) has it. Its dates are those that the trees tell, never the clock's: the same content
 * makes the same feed. `address` makes absolute addresses.
 */
export function writeFeed({ site, trees, blocks }: Library, address: MakeAddress): string {
  const newest = [...trees.values()]
    .filter(({ since }) => since !== undefined)
    .toSorted((one, other) => compareTexts(`${other.since}`, `${one.since}`) || compareTexts(one.slug, other.slug))
    .slice(0, mostEntries);
  const home = address({ kind: 'home' });
  const own = address({ kind: 'feed' });
  const entries = newest.map((tree) => {
    const page = escapeXml(address({ kind: 'tree', tree: tree.slug }));
    return [
      '<entry>',
      `<id>${escapeXml(address({ kind: 'tree', tree: firstSlugOf(tree) }))}</id>`,
      `<title>${escapeXml(tree.title)}</title>`,
      `<link href="${page}"/>`,
      `<published>${timeOf(tree)}</published>`,
      `<updated>${timeOf(tree)}</updated>`,
      `<category term="${escapeXml(tree.block)}" label="${escapeXml(blocks.get(tree.block)?.title ?? tree.block)}"/>`,
      `<summary>${escapeXml(tree.summary)}</summary>`,
      '</entry>',
    ].join('');
  });
  return [
    '<?xml version="1.0" encoding="utf-8"?>',
    '<feed xmlns="http://www.w3.org/2005/Atom" xml:lang="en">',
    `<id>${escapeXml(own)}</id>`,
    `<title>${escapeXml(`${site.name}: new fault trees`)}</title>`,
    `<subtitle>${escapeXml(site.summary)}</subtitle>`,
    `<link rel="self" type="application/atom+xml" href="${escapeXml(own)}"/>`,
    `<link href="${escapeXml(home)}"/>`,
    `<author><name>${escapeXml(`${site.name} contributors`)}</name></author>`,
    `<rights>CC BY-SA 4.0</rights>`,
    `<updated>${newest[0] === undefined ? '1970-01-01T00:00:00Z' : timeOf(newest[0])}</updated>`,
    ...entries,
    '</feed>',
    '',
  ].join('\n');
}

/** Every page under its own address, none under an old one; without the whole trees for paper, which say what their steps say. */
export function writeSitemap(library: Library, address: MakeAddress): string {
  const places: readonly Place[] = [
    ...singlePages.map((kind) => ({ kind })),
    ...guidePages.map((page): Place => ({ kind: 'guide-page', page })),
    ...[...library.trees.values()].flatMap(({ slug, nodes }): readonly Place[] => [
      { kind: 'tree', tree: slug },
      ...nodes.map(({ id }): Place => ({ kind: 'node', tree: slug, node: id })),
    ]),
    ...(['target', 'caution', 'unit', 'part', 'circuit'] as const).flatMap((kind) =>
      [...library[`${kind}s`].keys()].map((slug): Place => ({ kind, slug })),
    ),
  ];
  return [
    '<?xml version="1.0" encoding="utf-8"?>',
    '<urlset xmlns="http://www.sitemaps.org/schemas/sitemap/0.9">',
    ...places.map((place) => `<url><loc>${escapeXml(address(place))}</loc></url>`),
    '</urlset>',
    '',
  ].join('\n');
}

/** What a search engine may be told of a tree: schema.org, with nothing that the page does not show. */
export function describeTree(tree: FaultTree, { site, blocks }: Library, address: MakeAddress): string {
  const page = address({ kind: 'tree', tree: tree.slug });
  const data = [
    {
      '@context': 'https://schema.org',
      '@type': 'TechArticle',
      headline: tree.title,
      description: tree.summary,
      url: page,
      inLanguage: 'en',
      ...(tree.since === undefined ? {} : { datePublished: tree.since }),
      license: 'https://creativecommons.org/licenses/by-sa/4.0/',
      publisher: { '@type': 'Organization', name: site.name, url: address({ kind: 'home' }) },
    },
    {
      '@context': 'https://schema.org',
      '@type': 'BreadcrumbList',
      itemListElement: [
        { '@type': 'ListItem', position: 1, name: 'All trees', item: address({ kind: 'trees' }) },
        {
          '@type': 'ListItem',
          position: 2,
          name: blocks.get(tree.block)?.title ?? tree.block,
          item: `${address({ kind: 'trees' })}#${tree.block}`,
        },
        { '@type': 'ListItem', position: 3, name: tree.title, item: page },
      ],
    },
  ];
  // No text can end the element: HTML Living Standard, restrictions for contents of script elements.
  return JSON.stringify(data).replaceAll('<', '\\u003c');
}

/** An entry's id never changes (RFC 4287, 4.2.6): the name that the tree had first. */
function firstSlugOf({ slug, was }: FaultTree): string {
  return was[0] ?? slug;
}

/** A day is told as its beginning, in the world's time. */
function timeOf({ since }: FaultTree): string {
  return `${since}T00:00:00Z`;
}

import { pagePolicy } from '#build/policy.ts';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import ts from 'typescript';
import { beforeAll, describe, expect, it } from 'vitest';
import { useBench } from '../journeys/open-browser.ts';

interface PageFacts {
  readonly file: string;
  readonly title: string;
  readonly description: string;
  readonly language: string;
  readonly graphTags: Readonly<Record<string, string>>;
  readonly headings: number;
  readonly ids: readonly string[];
  readonly addresses: readonly string[];
  readonly styled: readonly string[];
  readonly handlers: readonly string[];
  readonly inlineScripts: readonly string[];
  readonly inlineStyles: readonly string[];
  readonly policy: string;
}

const files = readdirSync('dist', { recursive: true, encoding: 'utf8' }).map((file) => file.replaceAll('\\', '/'));
const pages = files.filter((file) => file.endsWith('.html')).toSorted();
const origin = 'http://site.invalid';
const bench = useBench();
let facts: readonly PageFacts[];

beforeAll(async () => {
  const { page } = await bench.visit();
  const collected: PageFacts[] = [];
  for (let start = 0; start < pages.length; start += 50) {
    const batch = pages.slice(start, start + 50).map((file) => ({ file, text: readFileSync(`dist/${file}`, 'utf8') }));
    collected.push(...(await page.evaluate(readFacts, batch)));
  }
  facts = collected;
});

/** Runs in Chromium: its parser is the reader that counts. */
function readFacts(batch: readonly { readonly file: string; readonly text: string }[]): PageFacts[] {
  return batch.map(({ file, text }) => {
    const page = new DOMParser().parseFromString(text, 'text/html');
    const all = [...page.querySelectorAll('*')];
    const meta = (name: string): string => page.querySelector(`meta[name="${name}"]`)?.getAttribute('content') ?? '';
    return {
      file,
      title: page.title,
      description: meta('description'),
      language: page.documentElement.lang,
      graphTags: Object.fromEntries(
        [...page.querySelectorAll('meta[property^="og:"]')].map((tag) => [
          tag.getAttribute('property') ?? '',
          tag.getAttribute('content') ?? '',
        ]),
      ),
      // Views that script shows one at a time have a heading each.
      headings: [...page.querySelectorAll('h1')].filter((heading) => heading.closest('[hidden]') === null).length,
      ids: all.map(({ id }) => id).filter((id) => id !== ''),
      addresses: all.flatMap((element) =>
        ['href', 'xlink:href', 'src', 'action'].flatMap((name) => element.getAttribute(name) ?? []),
      ),
      styled: all.filter((element) => element.hasAttribute('style')).map((element) => element.tagName),
      handlers: all.flatMap((element) => element.getAttributeNames().filter((name) => name.startsWith('on'))),
      inlineScripts: [...page.querySelectorAll('script:not([src])')]
        .filter((script) => !(script.getAttribute('type') ?? '').endsWith('json'))
        .map((script) => script.textContent ?? ''),
      inlineStyles: [...page.querySelectorAll('style')].map((style) => style.textContent ?? ''),
      policy: page.querySelector('meta[http-equiv="content-security-policy" i]')?.getAttribute('content') ?? '',
    };
  });
}

/** Address of a file of dist/, below the origin. */
function addressOfFile(file: string): string {
  return `/${file.replace(/(^|\/)index\.html$/u, '$1')}`;
}

describe('every page of the built site', () => {
  it('has been read: at least a hundred of them, each with its address', () => {
    expect(facts.length).toBeGreaterThan(100);
    expect(facts.map(({ file }) => file)).toEqual(pages);
  });

  it('links only to pages, files and fragments that exist', () => {
    const idsOf = new Map(facts.map((page) => [addressOfFile(page.file), new Set(page.ids)]));
    const known = new Set(files.map(addressOfFile));
    const broken = facts.flatMap(({ file, addresses }) =>
      [...new Set(addresses)].flatMap((address) => {
        const target = new URL(address, `${origin}${addressOfFile(file)}`);
        if (target.origin !== origin) return [];
        const ids = idsOf.get(target.pathname);
        const isThere = known.has(target.pathname);
        // `key=value` is the state of a diagnosis (design: addresses), not the id of a place.
        const fragment = target.hash.includes('=') ? '' : decodeURIComponent(target.hash.slice(1));
        const isFragmentThere = fragment === '' || ids?.has(fragment) === true;
        return isThere && isFragmentThere ? [] : [`${file}: ${address}`];
      }),
    );

    expect(broken).toEqual([]);
  });

  it('loads nothing from and posts nothing to another origin', () => {
    const foreign = facts.flatMap(({ file, addresses }) =>
      addresses
        .filter((address) => !address.startsWith('data:') && new URL(address, origin).origin !== origin)
        .map((address) => `${file}: ${address}`),
    );

    expect(foreign).toEqual([]);
  });

  it('uses each id once', () => {
    const repeated = facts.flatMap(({ file, ids }) =>
      ids.filter((id, index) => ids.indexOf(id) !== index).map((id) => `${file}: ${id}`),
    );

    expect(repeated).toEqual([]);
  });

  it('carries no style attribute and no event attribute', () => {
    const found = facts.flatMap(({ file, styled, handlers }) =>
      [...styled, ...handlers].map((name) => `${file}: ${name}`),
    );

    expect(found).toEqual([]);
  });

  it('has the policy, which allows nothing but files of the site, and no script or style of its own', () => {
    const found = facts.flatMap(({ file, policy, inlineScripts, inlineStyles }) => [
      ...(policy === pagePolicy.join('; ') ? [] : [`${file}: no policy`]),
      ...(policy.includes('unsafe-') ? [`${file}: ${policy}`] : []),
      ...[...inlineScripts, ...inlineStyles].map((text) => `${file}: ${text.slice(0, 60)}`),
    ]);

    expect(found).toEqual([]);
  });

  it('has exactly one first heading, and says its language', () => {
    const found = facts.filter(({ headings, language }) => headings !== 1 || language !== 'en').map(({ file }) => file);

    expect(found).toEqual([]);
  });

  it('has a title of its own', () => {
    // Pages that answer an old address are the page of their successor: only these may repeat one.
    const titles = Map.groupBy(facts, ({ title }) => title);
    const shared = [...titles.values()]
      .filter((group) => group.length > 1)
      .map((group) => group.map(({ file }) => file));

    expect(shared).toEqual([]);
    expect(facts.filter(({ title }) => title.trim() === '')).toEqual([]);
  });

  it('has a description, within what a preview shows, and one that no other page has', () => {
    const lengths = facts
      .filter(({ description }) => description.length < 20 || description.length > 300)
      .map(({ file }) => file);
    const shared = [...Map.groupBy(facts, ({ description }) => description).values()]
      .filter((group) => group.length > 1)
      .map((group) => group.map(({ file }) => file));

    expect({ lengths, shared }).toEqual({ lengths: [], shared: [] });
  });

  it('has the Open Graph tags that a preview is made of, saying what title and description say', () => {
    const found = facts
      .filter(
        ({ title, description, graphTags }) =>
          graphTags['og:title'] !== title ||
          graphTags['og:description'] !== description ||
          !['website', 'article'].includes(graphTags['og:type'] ?? '') ||
          graphTags['og:site_name'] === undefined,
      )
      .map(({ file }) => file);

    expect(found).toEqual([]);
  });

  it('leaves out what needs the address of publication where none is set', () => {
    const texts = pages.map((file) => [file, readFileSync(`dist/${file}`, 'utf8')] as const);

    expect(texts.filter(([, text]) => /og:image|og:url|rel="canonical"/.test(text))).toEqual([]);
  });

  it('answers every address that was ever published', () => {
    const answered = new Set(pages.map(addressOfFile));
    const published = readFileSync('content/addresses.txt', 'utf8')
      .split('\n')
      .filter((line) => line !== '');

    expect(published.filter((address) => !answered.has(address))).toEqual([]);
  });

  it('shows the search box where an address leads nowhere', () => {
    expect(readFileSync('dist/404.html', 'utf8')).toContain('<search-box');
  });
});

/** Whether a module waits while it is run. */
function awaitsAtTop(node: ts.Node): boolean {
  if (ts.isFunctionLike(node)) return false;
  const isWait = ts.isAwaitExpression(node) || (ts.isForOfStatement(node) && node.awaitModifier !== undefined);
  return isWait || ts.forEachChild(node, awaitsAtTop) === true;
}

function readModule(text: string): ts.SourceFile {
  return ts.createSourceFile('module.js', text, ts.ScriptTarget.ESNext);
}

describe('the scripts of the built site', () => {
  // WebKit bug 242740: with two importers, the second runs before the awaited module is done. Every step's page has two.
  it('never wait at the top of a module, where Safari would go on without waiting', () => {
    expect(awaitsAtTop(readModule('const a = async () => await 1; export const b = await a();'))).toBe(true);
    expect(awaitsAtTop(readModule('const a = async () => await 1; class B { async c() { await a(); } }'))).toBe(false);
    const scripts = files.filter((file) => /^_astro\/.*\.js$/u.test(file));

    expect(scripts.length).toBeGreaterThan(20);
    expect(scripts.filter((file) => awaitsAtTop(readModule(readFileSync(`dist/${file}`, 'utf8'))))).toEqual([]);
  });
});

describe('what is left out of the bundles', () => {
  // The constant by which that library splits a number in two: J. R. Shewchuk, Adaptive Precision Floating-Point Arithmetic, 1997.
  it('is the one library below a shipped one that has no permissive licence: robust-predicates', () => {
    const holding = (folder: string): readonly string[] =>
      readdirSync(folder).filter(
        (file) => file.endsWith('.js') && /134217729|2 ?\*\* ?27/u.test(readFileSync(join(folder, file), 'utf8')),
      );

    expect(holding('node_modules/robust-predicates/esm')).not.toEqual([]);
    expect([...holding('dist/_astro'), ...holding('dist')]).toEqual([]);
  });
});

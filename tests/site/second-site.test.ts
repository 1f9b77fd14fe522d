import { createHash } from 'node:crypto';
import { cpSync, existsSync, mkdtempSync, readdirSync, readFileSync, renameSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { JSDOM } from 'jsdom';
import openGraph from 'open-graph-scraper';
import { PNG } from 'pngjs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { pagePolicy } from '#build/policy.ts';
import type { FaultTree } from '#core/model/fault-tree.ts';
import { readPathSoFar } from '../journeys/hands.ts';
import { openKeptBrowser, waitUntilStored } from '../journeys/offline/open-kept-browser.ts';
import { phone, useBench } from '../journeys/open-browser.ts';
import { buildSite, copyProgram } from '../support/build-site.ts';
import { environmentElsewhere } from '../support/own-environment.ts';
import { moduleThatWrites, plantCode, putFile } from '../support/plant-code.ts';
import { startStaticSite, type StaticSite } from '../support/static-site.ts';

// One more build, of the site as it may stand elsewhere and in some years: published below a sub-path; the tree psu-5v-low is called
// rail-5v-low, its first check has another id, title and one other answer, and one of its checks came from another tree; strangers have
// put code into every kind of file, and nothing guards the build.
const root = mkdtempSync(join(tmpdir(), 'halfsplit-second-site-'));
const project = join(root, 'project');
const dist = join(project, 'dist');
const marker = join(root, 'ran.txt');
const control = join(root, 'control.txt');
let site: StaticSite;
const bench = useBench();

beforeAll(async () => {
  copyProgram(project);
  cpSync('content', join(project, 'content'), { recursive: true });
  renameTree();
  plantCode(project, marker);
  const config = readFileSync('astro.config.mjs', 'utf8');
  const guard = 'guardContent(), ';
  expect(config).toContain(guard);
  putFile(project, 'astro.config.mjs', config.replace(guard, ''));
  putFile(project, 'src/pages/control.mdx', `import{}from"${moduleThatWrites(control)}"\n\nRead.\n`);
  buildSite(project, { ...environmentElsewhere(), BASE_PATH: '/workshop/', SITE_URL: 'https://example.org' });
  site = await startStaticSite(dist, '/workshop/');
  // A whole build, on a machine that may be busy with others.
}, 600_000);
afterAll(async () => {
  await site?.goDown();
  rmSync(root, { recursive: true, force: true });
});

function renameTree(): void {
  const content = join(project, 'content');
  for (const file of readdirSync(content, { recursive: true, encoding: 'utf8' })) {
    if (!/\.(?:mdx|yaml)$/.test(file)) continue;
    putFile(content, file, readFileSync(join(content, file), 'utf8').replaceAll('psu-5v-low', 'rail-5v-low'));
  }
  const file = join(content, 'trees/power/rail-5v-low.mdx');
  renameSync(join(content, 'trees/power/psu-5v-low.mdx'), file);
  const before = readFileSync(file, 'utf8');
  const after = before
    .replace(/^block: power$/m, 'block: power\nwas: [psu-5v-low]')
    .replace(/^since: .*$/m, 'since: 2026-12-24')
    .replace(
      '<Check id="supply-kind" title="What makes the 5 V?"',
      '<Check id="feed-kind" was="supply-kind" title="What feeds the 5 V?"',
    )
    .replaceAll('supply-kind=', 'feed-kind=')
    .replaceAll('feed-kind=iron', 'feed-kind=transformer')
    .replace('<Outcome when="iron"', '<Outcome when="transformer"')
    .replace('<Check id="add-ons"', '<Check id="add-ons" was="psu-ripple/add-on-test"');
  // Each of the edits took place.
  for (const part of [
    'was: [psu',
    'since: 2026-12-24',
    'was="supply-kind"',
    'when="transformer"',
    'was="psu-ripple/add-on-test"',
  ]) {
    if (!after.includes(part)) throw new Error(`The tree could not be changed: ${part}`);
  }
  putFile(content, 'trees/power/rail-5v-low.mdx', after);
}

function readPages(folder: string): readonly string[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((file) => file.endsWith('.html'));
}

describe('every page of a site that was published elsewhere', () => {
  it('has the policy too', () => {
    // The page that shows that code runs in a page of the project has no layout.
    const without = readPages(dist)
      .filter((page) => !page.startsWith('control'))
      .filter((page) => !readFileSync(join(dist, page), 'utf8').includes(`content="${pagePolicy.join('; ')}"`));
    expect(without).toEqual([]);
  });
});

describe('code in every kind of file of content', () => {
  it('runs nothing in a build that no check stops, while a page of the project itself does run its code', () => {
    expect(readFileSync(control, 'utf8')).toBe('ran');
    expect(existsSync(marker)).toBe(false);
  });
});

describe('what a change of one tree leaves alone', () => {
  /** What a page shows, without the names of scripts and maps, which follow from their content. */
  const readMain = (folder: string, page: string): string =>
    (/<main[\s\S]*<\/main>/u.exec(readFileSync(join(folder, page), 'utf8'))?.[0] ?? '')
      .replaceAll('/workshop/', '/')
      .replaceAll(/\/_astro\/[\w-]+\.js|\/data\/maps\/[\w.-]+\.json/gu, '');
  // By address: elsewhere is another machine, with another clock, zone of time and language.
  it('is built as it was: every step and drawing of the other trees', () => {
    const steps = readPages('dist')
      .filter((page) => page.startsWith('trees/'))
      .map((page) => [page, readMain('dist', page), readMain(dist, page)] as const)
      .filter(([, before, after]) => !/(?:psu|rail)-5v-low/u.test(before + after));

    expect(steps.length).toBeGreaterThan(1500);
    expect(steps.filter(([, before, after]) => before !== after).map(([file]) => file)).toEqual([]);
  });
});

describe('a site below a sub-path', () => {
  it('has every address of every page below it, those in prose and drawings too', () => {
    const pages = readPages(dist);
    expect(pages.length).toBeGreaterThan(600);
    const astray = pages.flatMap((page) =>
      [...readFileSync(join(dist, page), 'utf8').matchAll(/(?:href|src|action|data-index)="(\/[^"]*)"/gu)]
        .map(([, address = '']) => address)
        .filter((address) => !address.startsWith('/workshop/'))
        .map((address) => `${page}: ${address}`),
    );
    expect(astray).toEqual([]);
  });

  it.each(['rail-5v-low', 'psu-5v-low'])('names in full the canonical address of a page at %s', (slug) => {
    const page = readFileSync(join(dist, `trees/${slug}/trough/index.html`), 'utf8');
    expect(page).toContain('<link rel="canonical" href="https://example.org/workshop/trees/rail-5v-low/trough/">');
  });

  it('works there with the network off after one visit, and leaves the rest of the host alone', async () => {
    const own = await startStaticSite(dist, '/workshop/');
    const browser = await openKeptBrowser(own.address);
    const page = await browser.openWindow();
    await page.goto('/workshop/cautions/mains/');
    await waitUntilStored(page);
    expect(await page.evaluate(async () => (await navigator.serviceWorker.getRegistration())?.scope)).toBe(
      `${own.address}/workshop/`,
    );
    expect(own.served.filter(({ status, path }) => status !== 200 || !path.startsWith('/workshop/'))).toEqual([]);
    await own.goDown();
    await page.goto('/workshop/?q=5v%20rail%20too%20low');
    await page.getByRole('option').first().tap();
    await page.waitForURL('**/workshop/trees/**');

    expect(await page.getByRole('heading', { level: 1 }).count()).toBe(1);
    await expect(page.goto('/elsewhere/')).rejects.toThrow(/ERR_CONNECTION_REFUSED/u);
    expect(browser.faults).toEqual([]);
    await browser.end();
  });
});

describe('a link of today, after the tree was renamed and edited', () => {
  it('lands on the same check, says what has changed, keeps every answer, and goes on under today’s names', async () => {
    const { page, open, remember } = await bench.visit({ ...phone, baseURL: site.address });
    await remember('halfsplit.marks', 'first-plug mains charged-capacitor hot-parts');
    await open(
      '/workshop/trees/psu-5v-low/regulator-out/#supply-kind=iron&psu-5v-low/rail-bare=4.43V&did=reservoir-dry',
    );

    expect(await page.locator('h1').textContent()).toContain('Is 5 V low at the regulator already?');
    expect(await page.locator('.moved').textContent()).toContain('The address you opened is an old one.');
    expect(await page.locator('.notices p').allTextContents()).toEqual([
      '“supply-kind” is called “What feeds the 5 V?” now; the link still means the same.',
      'The tree “psu-5v-low” is called “rail-5v-low” now; the link still means the same.',
      '“Iron” is not an answer to “What feeds the 5 V?” any more; it is kept as text and decides nothing.',
    ]);
    expect(await readPathSoFar(page)).toEqual([
      'What feeds the 5 V?: Iron',
      expect.stringMatching(/^5 V at the farthest chip, all add-ons off\?: 4\.43/),
      'Reservoir capacitor dried out: Tried: not repaired',
    ]);
    await page.getByRole('link', { name: /^Right at the regulator: lost on the way/u }).tap();
    // What feeds it is not known any more, so the engine asks that first.
    await page.waitForURL('**/trees/rail-5v-low/feed-kind/#*');
    expect(new URL(page.url()).hash).toBe('#feed-kind=iron&rail-bare=4.43V&regulator-out=in&did=reservoir-dry');
  });

  it('lands on the renamed check, and a copied link has today’s address', async () => {
    const { page, open } = await bench.visit({
      baseURL: site.address,
      permissions: ['clipboard-read', 'clipboard-write'],
    });
    await open('/workshop/trees/psu-5v-low/supply-kind/');

    expect(await page.locator('h1').textContent()).toContain('What feeds the 5 V?');
    await page.getByRole('button', { name: 'Copy a link to exactly this' }).click();
    await page.getByText('Link copied.').waitFor();
    expect(await page.evaluate(() => navigator.clipboard.readText())).toBe(
      `${site.address}/workshop/trees/rail-5v-low/feed-kind/`,
    );
  });

  it('lands on a check that moved into another tree, with the rest as evidence from the tree it was in', async () => {
    const { page, open } = await bench.visit({ ...phone, baseURL: site.address });
    await open('/workshop/trees/psu-ripple/add-on-test/#hum-kind=steady');

    expect(await page.locator('h1').textContent()).toContain('Which add-on brings it down?');
    expect(await page.locator('[data-walked] li').textContent()).toContain('psu ripple: hum kind');
  });

  it('opens the whole tree at its old address, with the way that the answers took', async () => {
    const { page, open } = await bench.visit({ ...phone, baseURL: site.address });
    await open('/workshop/trees/psu-5v-low/#regulator-out=in');

    expect(await page.locator('.moved').textContent()).toContain('5 V rail too low');
    await page.locator('.graph svg .node.walked').first().waitFor({ state: 'attached' });
  });

  it('answers every address that the build of today has', () => {
    const pages = new Set(readPages(dist));
    const today = readPages('dist');

    expect(today).toContain('trees/psu-5v-low/regulator-out/index.html');
    expect(today.filter((path) => !pages.has(path))).toEqual([]);
  });
});

describe('what a published site tells of itself', () => {
  const addressOfPage = (page: string): string => `https://example.org/workshop/${page.replace(/index\.html$/, '')}`;
  const readXml = (file: string): Document =>
    new JSDOM(readFileSync(join(dist, file), 'utf8'), { contentType: 'application/xml' }).window.document;

  it('lists in its sitemap every page under its own address and none under an old one, by what the pages say themselves', () => {
    const canonical = readPages(dist).flatMap((page) => {
      const address = /<link rel="canonical" href="([^"]*)"/.exec(readFileSync(join(dist, page), 'utf8'))?.[1];
      return address === addressOfPage(page) && page !== '404.html' && !page.endsWith('/all/index.html')
        ? [address]
        : [];
    });
    const listed = [...readXml('sitemap.xml').querySelectorAll('url > loc')].map(({ textContent }) => textContent);

    expect(listed.toSorted()).toEqual(canonical.toSorted());
    expect(listed).toContain('https://example.org/workshop/trees/rail-5v-low/trough/');
    // sitemaps.org: at most 50,000 addresses in one file.
    expect(listed.length).toBeLessThan(50_000);
    expect(readFileSync(join(dist, 'robots.txt'), 'utf8')).toContain(
      'Sitemap: https://example.org/workshop/sitemap.xml',
    );
  });

  // RFC 4287: 4.1.1 and 4.1.2 (what a feed and an entry hold), 4.2.6 (an id never changes), 3.3 (dates by RFC 3339).
  it('has a feed of its newest trees, with the days that they tell and ids that outlive a renaming', () => {
    const feed = readXml('feed.xml');
    const entries = [...feed.querySelectorAll('feed > entry')];
    const textsOf = (from: ParentNode, name: string): readonly (string | null)[] =>
      [...from.querySelectorAll(`:scope > ${name}`)].map(({ textContent }) => textContent);

    expect(feed.documentElement.namespaceURI).toBe('http://www.w3.org/2005/Atom');
    expect(entries).toHaveLength(30);
    for (const part of [feed.documentElement, ...entries]) {
      for (const name of ['id', 'title', 'updated']) expect(textsOf(part, name)).toHaveLength(1);
    }
    expect(feed.querySelector('feed > author > name')?.textContent).toBe('Halfsplit contributors');
    const days = entries.flatMap((entry) => textsOf(entry, 'updated'));
    expect(days.filter((day) => !/^\d{4}-\d\d-\d\dT00:00:00Z$/.test(day ?? ''))).toEqual([]);
    expect(days).toEqual(days.toSorted().toReversed());
    expect(textsOf(feed.documentElement, 'updated')).toEqual(days.slice(0, 1));
    const addresses = entries.map((entry) => entry.querySelector('link')?.getAttribute('href') ?? '');
    expect(addresses.filter((address) => !existsSync(join(dist, address.slice(29), 'index.html')))).toEqual([]);
    const renamed = entries.find((entry) => entry.querySelector('link')?.getAttribute('href')?.includes('rail-5v-low'));
    expect(renamed?.querySelector('id')?.textContent).toBe('https://example.org/workshop/trees/psu-5v-low/');
  });

  it('names the feed on the first page and on that of all trees alone', () => {
    const naming = readPages(dist).filter((page) =>
      readFileSync(join(dist, page), 'utf8').includes('rel="alternate" type="application/atom+xml"'),
    );

    expect(naming.toSorted()).toEqual(['index.html', 'trees/index.html']);
  });

  it('describes a tree to search engines in a block that no policy objects to: it is data, and never runs', async () => {
    const { page, open } = await bench.visit({ ...phone, baseURL: site.address });
    await open('/workshop/trees/rail-5v-low/');
    const text = await page.locator('script[type="application/ld+json"]').textContent();

    expect(JSON.parse(text ?? '')).toMatchObject([
      { '@type': 'TechArticle', url: 'https://example.org/workshop/trees/rail-5v-low/', datePublished: '2026-12-24' },
      {
        '@type': 'BreadcrumbList',
        itemListElement: [{ position: 1 }, { position: 2, name: 'Power' }, { position: 3 }],
      },
    ]);
    expect(readFileSync(join(dist, 'trees/psu-5v-low/index.html'), 'utf8')).not.toContain('ld+json');
  });
});

// Read by open-graph-scraper, which is not ours; the pictures by pngjs.
describe('what a published site shows to readers of links', () => {
  let pages: readonly { readonly path: string; readonly picture: string; readonly titles: readonly string[] }[];
  beforeAll(() => {
    const data = join(dist, 'data/trees');
    const trees = readdirSync(data).map((file): FaultTree => JSON.parse(readFileSync(join(data, file), 'utf8')));
    pages = trees.flatMap((tree) => [
      { path: `trees/${tree.slug}/`, picture: `previews/${tree.slug}.png`, titles: [tree.title] },
      ...tree.nodes.map(({ id, kind, title }) => ({
        path: `trees/${tree.slug}/${id}/`,
        picture: kind === 'cause' ? `previews/${tree.slug}/${id}.png` : `previews/${tree.slug}.png`,
        titles: [title, tree.title],
      })),
    ]);
  });

  it('every third page of trees, causes and checks has tags that a foreign parser reads, each with its own title and its picture', async () => {
    expect(pages.length).toBeGreaterThan(450);
    const found: string[] = [];
    // A third of them, each kind of step among them: all are written by one layout.
    for (const { path, picture, titles } of pages.filter((_, place) => place % 3 === 0)) {
      const { result } = await openGraph({ html: readFileSync(join(dist, path, 'index.html'), 'utf8') });
      const expected = `https://example.org/workshop/${picture}`;
      const isRight =
        titles.every((title) => result.ogTitle?.includes(title) === true) &&
        (result.ogDescription?.length ?? 0) >= 20 &&
        result.ogUrl === `https://example.org/workshop/${path}` &&
        result.ogSiteName === 'Halfsplit' &&
        result.ogType === 'article' &&
        result.ogImage?.length === 1 &&
        result.ogImage[0]?.url === expected &&
        result.ogImage[0].type === 'image/png' &&
        String(result.ogImage[0].width) === '1200' &&
        String(result.ogImage[0].height) === '630' &&
        titles.slice(0, 1).every((title) => picture.split('/').length < 3 || result.ogImage?.[0]?.alt?.includes(title));
      if (!isRight) found.push(`${path}: ${JSON.stringify(result)}`);
    }
    expect(found).toEqual([]);
  });

  it('every picture is there, 1200 by 630 pixels, of at most 50 kB, and no two are the same', () => {
    const pictures = [...new Set(pages.map(({ picture }) => picture))];
    expect(pictures.length).toBeGreaterThan(150);
    const seen = new Set<string>();
    for (const [place, picture] of pictures.entries()) {
      const bytes = readFileSync(join(dist, picture));
      // Width and height stand in the first chunk of a PNG (ISO/IEC 15948, 11.2.2).
      expect([bytes.readUInt32BE(16), bytes.readUInt32BE(20)], picture).toEqual([1200, 630]);
      expect(bytes.length, picture).toBeLessThanOrEqual(50_000);
      seen.add(createHash('sha256').update(bytes).digest('hex'));
      if (place % 10 !== 0) continue;
      const { width, data } = PNG.sync.read(bytes);
      // Paper at the rim, ink in the frame: the picture is drawn, not blank.
      expect([...data.subarray(0, 3)], picture).toEqual([0xf6, 0xf2, 0xe8]);
      expect([...data.subarray((300 * width + 28) * 4, (300 * width + 28) * 4 + 3)], picture).toEqual([
        0x1d, 0x1b, 0x16,
      ]);
    }
    expect(seen.size).toBe(pictures.length);
  });
});

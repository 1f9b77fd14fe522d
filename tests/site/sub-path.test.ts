import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createHash } from 'node:crypto';
import { PNG } from 'pngjs';
import openGraph from 'open-graph-scraper';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openKeptBrowser, waitUntilStored } from '../journeys/offline/open-kept-browser.ts';
import { loadLibrary } from '#build/library.ts';
import { ownEnvironment } from '../support/own-environment.ts';
import { startStaticSite } from '../support/static-site.ts';

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'halfsplit-sub-path-'));
  execFileSync(process.execPath, ['node_modules/astro/bin/astro.mjs', 'build', '--silent', '--outDir', folder], {
    env: { ...ownEnvironment(), BASE_PATH: '/workshop/', SITE_URL: 'https://example.org' },
    stdio: 'pipe',
  });
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('a site below a sub-path', () => {
  it('has every address of every page below it, those in prose and drawings too', () => {
    const pages = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((file) => file.endsWith('.html'));
    expect(pages.length).toBeGreaterThan(600);
    const astray = pages.flatMap((page) =>
      [...readFileSync(join(folder, page), 'utf8').matchAll(/(?:href|src|action|data-index)="(\/[^"]*)"/gu)]
        .map(([, address = '']) => address)
        .filter((address) => !address.startsWith('/workshop/'))
        .map((address) => `${page}: ${address}`),
    );
    expect(astray).toEqual([]);
  });

  it('names its canonical address in full', () => {
    const page = readFileSync(join(folder, 'trees/psu-5v-low/trough/index.html'), 'utf8');
    expect(page).toContain('<link rel="canonical" href="https://example.org/workshop/trees/psu-5v-low/trough/">');
  });

  it('works there with the network off after one visit, and leaves the rest of the host alone', async () => {
    const site = await startStaticSite(folder, '/workshop/');
    const browser = await openKeptBrowser(site.address);
    const page = await browser.openWindow();
    await page.goto('/workshop/cautions/mains/');
    await waitUntilStored(page);
    expect(await page.evaluate(async () => (await navigator.serviceWorker.getRegistration())?.scope)).toBe(
      `${site.address}/workshop/`,
    );
    expect(site.served.filter(({ status, path }) => status !== 200 || !path.startsWith('/workshop/'))).toEqual([]);
    await site.goDown();
    await page.goto('/workshop/?q=5v%20rail%20too%20low');
    await page.getByRole('option').first().tap();
    await page.waitForURL('**/workshop/trees/**');

    expect(await page.getByRole('heading', { level: 1 }).count()).toBe(1);
    await expect(page.goto('/elsewhere/')).rejects.toThrow(/ERR_CONNECTION_REFUSED/u);
    expect(browser.faults).toEqual([]);
    await browser.end();
  });
});

// Read by open-graph-scraper, which is not ours; the pictures by pngjs.
describe('what a published site shows to readers of links', () => {
  const trees = [...loadLibrary().trees.values()];
  const pages = trees.flatMap((tree) => [
    { path: `trees/${tree.slug}/`, picture: `previews/${tree.slug}.png`, titles: [tree.title] },
    ...tree.nodes.map(({ id, kind, title }) => ({
      path: `trees/${tree.slug}/${id}/`,
      picture: kind === 'cause' ? `previews/${tree.slug}/${id}.png` : `previews/${tree.slug}.png`,
      titles: [title, tree.title],
    })),
  ]);
  const pictures = [...new Set(pages.map(({ picture }) => picture))];

  it('every tree, cause and check has tags that a foreign parser reads, each with its own title and its picture', async () => {
    expect(pages.length).toBeGreaterThan(450);
    const found: string[] = [];
    for (const { path, picture, titles } of pages) {
      const { result } = await openGraph({ html: readFileSync(join(folder, path, 'index.html'), 'utf8') });
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
        titles
          .slice(0, 1)
          .every((title) => picture.split('/').length < 3 || result.ogImage?.[0]?.alt?.includes(title)) &&
        result.twitterCard === 'summary_large_image' &&
        result.twitterTitle === result.ogTitle &&
        result.twitterDescription === result.ogDescription &&
        result.twitterImage?.[0]?.url === expected;
      if (!isRight) found.push(`${path}: ${JSON.stringify(result)}`);
    }
    expect(found).toEqual([]);
  });

  it('every picture is there, 1200 by 630 pixels, of at most 50 kB, and no two are the same', () => {
    expect(pictures.length).toBeGreaterThan(150);
    const seen = new Set<string>();
    for (const picture of pictures) {
      const bytes = readFileSync(join(folder, picture));
      const { width, height, data } = PNG.sync.read(bytes);
      expect([width, height], picture).toEqual([1200, 630]);
      expect(bytes.length, picture).toBeLessThanOrEqual(50_000);
      // Paper at the rim, ink in the frame: the picture is drawn, not blank.
      expect([...data.subarray(0, 3)], picture).toEqual([0xf6, 0xf2, 0xe8]);
      expect([...data.subarray((300 * width + 28) * 4, (300 * width + 28) * 4 + 3)], picture).toEqual([
        0x1d, 0x1b, 0x16,
      ]);
      seen.add(createHash('sha256').update(data).digest('hex'));
    }
    expect(seen.size).toBe(pictures.length);
  });
});

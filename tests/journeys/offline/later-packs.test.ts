import type { Page } from 'playwright-core';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { makeOtherVersion, type OtherVersion } from '../../support/other-version.ts';
import { type StaticSite, startStaticSite } from '../../support/static-site.ts';
import { type KeptBrowser, openKeptBrowser, waitUntilStored } from './open-kept-browser.ts';

let version: OtherVersion;
let site: StaticSite;
let browser: KeptBrowser;

/** Adds a page of the drafting part whose script no other page needs. */
function addDraftPage(folder: string): void {
  const page = readFileSync(join(folder, 'hand-over/index.html'), 'utf8');
  mkdirSync(join(folder, 'draft/tried'), { recursive: true });
  const script = '<script type="module" src="/_astro/tried.0a1b2c3d.js"></script>';
  writeFileSync(join(folder, 'draft/tried/index.html'), page.replace('</body>', `${script}</body>`));
  writeFileSync(join(folder, '_astro/tried.0a1b2c3d.js'), 'document.documentElement.dataset.tried = "yes";');
}

beforeAll(async () => {
  version = await makeOtherVersion('with a drafting page', addDraftPage);
});
afterAll(() => version.remove());

beforeEach(async () => {
  site = await startStaticSite(version.folder);
  browser = await openKeptBrowser(site.address);
});
afterEach(async () => {
  await browser.end();
  await site.goDown();
});

const draftingPack = () => site.served.filter(({ path }) => path.startsWith('/offline/drafting.'));

describe('script that only the drafting page needs', () => {
  it('is not part of the first visit; without it and without network the page says so', async () => {
    const page = await browser.openWindow();
    await page.goto('/');
    await waitUntilStored(page);
    expect(draftingPack()).toEqual([]);

    await site.goDown();
    await page.goto('/draft/tried/');
    await page.getByText('A part of this page is not stored on this device and the network is off.').waitFor();
    expect(await page.locator('html[data-tried]').count()).toBe(0);
  });

  it('is stored by a visit to that page, and runs there with the network off, after a restart too', async () => {
    const page = await browser.openWindow();
    await page.goto('/');
    await waitUntilStored(page);
    await page.goto('/draft/tried/');
    await page.locator('html[data-tried]').waitFor();
    await expect.poll(() => draftingPack().length, { timeout: 15_000 }).toBe(1);
    await expect
      .poll(() => page.evaluate(async () => (await (await caches.open('halfsplit-later')).keys()).length))
      .toBe(1);

    await site.goDown();
    await browser.restart();
    const later = await browser.openWindow();
    await later.goto('/draft/tried/');
    await later.locator('html[data-tried]').waitFor();
    expect(await later.locator('[data-missing-part]').count()).toBe(0);
    expect(browser.faults).toEqual([]);
  });
});

describe('a library that is too large to be stored whole', () => {
  // Bounds that the shipped one is beyond.
  const bounds = { stored: 1_000_000, pack: 6_000_000 };
  let large: OtherVersion;
  let next: OtherVersion;
  beforeAll(async () => {
    large = await makeOtherVersion('large', undefined, bounds);
    next = await makeOtherVersion('next', undefined, bounds);
  });
  afterAll(() => {
    large.remove();
    next.remove();
  });
  beforeEach(() => site.publish(large.folder));

  const blockPacks = () => [
    ...new Set(site.served.filter(({ path }) => path.startsWith('/offline/block-')).map(({ path }) => path)),
  ];
  const storedBlocks = (page: Page) =>
    page.evaluate(async () => {
      const keys = await (await caches.open('halfsplit-later')).keys();
      return keys.map(({ url }) => url.replace(/.*\/|\.[0-9a-f]{12}\.pack$/g, '')).sort();
    });

  it('brings no block at first; a tree that was opened works offline with its cause pages, another says what to do', async () => {
    const page = await browser.openWindow();
    await page.goto('/');
    await waitUntilStored(page);
    expect(blockPacks()).toEqual([]);
    await page.getByText('trees that were not opened (choose under Trees)').waitFor();

    await page.goto('/trees/audio-hum/');
    await expect.poll(() => storedBlocks(page)).toEqual(['block-audio']);

    await site.goDown();
    await page.goto('/trees/audio-hum/reservoir-dry/');
    expect(await page.title()).toMatch(/reservoir/iu);
    await page.goto('/trees/psu-5v-low/');
    await page.getByRole('heading', { level: 1, name: 'Not stored on this device' }).waitFor();
    await page.getByText('With the network on, open it once').waitFor();
    await page.goto('/trees/no-such-tree/');
    await page.getByRole('heading', { level: 1, name: 'No such page' }).waitFor();
    expect(browser.faults).toEqual([]);
  });

  it('stores a block that is asked for, all its packs, in the next version too, and throws it away', async () => {
    const page = await browser.openWindow();
    await page.goto('/trees/');
    await waitUntilStored(page);
    const power = page.locator('[data-block=power]');
    await power.getByRole('button', { name: /^Store for offline use, 0\.\d MB$/u }).click();
    await power.getByText('Works offline.').waitFor();
    expect((await storedBlocks(page)).length).toBeGreaterThan(1);

    site.publish(next.folder);
    await page.reload();
    await page.getByRole('button', { name: 'Use it now' }).click();
    await page.getByText('Version next.').waitFor();
    await power.getByText('Works offline.').waitFor();
    await site.goDown();
    await page.goto('/trees/psu-5v-low/');
    await page.getByRole('heading', { level: 1, name: '5 V rail too low' }).waitFor();
    await page.getByText('Version next.').waitFor();

    await page.goto('/trees/');
    await power.getByRole('button', { name: /^Remove from this device/u }).click();
    await power.getByRole('button', { name: /^Store for offline use/u }).waitFor();
    expect(await storedBlocks(page)).toEqual([]);
    await power.getByRole('button', { name: /^Store for offline use/u }).click();
    await power.getByText('Not stored: the network is off').waitFor();
    expect(browser.faults).toEqual([]);
  });
});

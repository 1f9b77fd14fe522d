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

const latePack = () => site.served.filter(({ path }) => path.startsWith('/offline/late-parts.'));

describe('script that only the drafting page needs', () => {
  it('is not part of the first visit; without it and without network the page says so', async () => {
    const page = await browser.openWindow();
    await page.goto('/');
    await waitUntilStored(page);
    expect(latePack()).toEqual([]);

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
    await expect.poll(() => latePack().length, { timeout: 15_000 }).toBe(1);
    await expect
      .poll(() => page.evaluate(async () => (await (await caches.open('halfsplit-late')).keys()).length))
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

import type { Page } from 'playwright-core';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type StaticSite, startStaticSite } from '../../support/static-site.ts';
import { thumb } from '../hands.ts';
import { type KeptBrowser, openKeptBrowser } from './open-kept-browser.ts';

let site: StaticSite;
let browser: KeptBrowser;
let page: Page;

beforeEach(async () => {
  site = await startStaticSite('dist');
  browser = await openKeptBrowser(site.address);
  page = await browser.openWindow();
});
afterEach(async () => {
  await browser.end();
  await site.goDown();
});

const notStored = () => page.getByText('Works offline: not stored in this browser.');

async function searchWorks(): Promise<void> {
  await page.getByRole('combobox').fill('5v rail too low');
  await thumb.press(page.getByRole('option').first());
  await page.waitForURL('**/trees/**');
}

describe('where nothing can be stored', () => {
  it('the worker is not to be had: the page says so and works', async () => {
    site.breakPaths(/\/sw\.js$/u);
    await page.goto('/');
    await notStored().waitFor();
    await searchWorks();
    expect(browser.faults).toEqual([]);
  });

  it('a pack does not arrive: the page says so and works, and a later visit stores everything', async () => {
    site.breakPaths(/\/offline\/targets/u);
    await page.goto('/');
    await notStored().waitFor();
    await searchWorks();
    site.breakPaths(undefined);
    await page.goto('/');
    await page.getByText('Works offline: ready.').waitFor();
    expect(browser.faults).toEqual([]);
  });

  it('the browser refuses workers: the page says so and works', async () => {
    await page.addInitScript(() => {
      ServiceWorkerContainer.prototype.register = () => Promise.reject(new DOMException('No.', 'SecurityError'));
    });
    await page.goto('/');
    await notStored().waitFor();
    await searchWorks();
    expect(browser.faults).toEqual([]);
  });

  it('the browser knows no workers: the page promises nothing and works', async () => {
    await page.addInitScript(() => {
      Reflect.deleteProperty(Navigator.prototype, 'serviceWorker');
    });
    await page.goto('/');
    await page.waitForLoadState('networkidle');
    expect(await page.locator('[data-stored]').textContent()).toBe('');
    await searchWorks();
    expect(site.served.map(({ path }) => path)).not.toContain('/sw.js');
    expect(browser.faults).toEqual([]);
  });

  it('the store was emptied behind its back: the page is had from the network, and stored again', async () => {
    await page.goto('/');
    await page.getByText('Works offline: ready.').waitFor();
    await page.evaluate(async () => {
      for (const name of await caches.keys()) await caches.delete(name);
    });
    await page.goto('/targets/half-supply/');
    expect(await page.getByRole('heading', { level: 1 }).textContent()).not.toBe('');
    await page.getByText('Works offline: ready.').waitFor();

    await site.goDown();
    await page.goto('/');
    await searchWorks();
    expect(browser.faults).toEqual([]);
    await site.comeBack();
  });

  it('a stored pack was damaged: it is fetched once more, and serves with the network off', async () => {
    await page.goto('/');
    await page.getByText('Works offline: ready.').waitFor();
    const damaged = await page.evaluate(async () => {
      let count = 0;
      for (const name of await caches.keys()) {
        const cache = await caches.open(name);
        for (const request of await cache.keys()) {
          if (!request.url.includes('/offline/')) continue;
          await cache.put(request, new Response(new Blob(['no pack']).stream()));
          count += 1;
        }
      }
      return count;
    });
    expect(damaged).toBeGreaterThan(0);
    // A worker that is awake has opened the packs already.
    await browser.restart();
    page = await browser.openWindow();
    await page.goto('/targets/half-supply/');
    await page.getByText('Works offline: ready.').waitFor();

    await site.goDown();
    await page.goto('/');
    await searchWorks();
    expect(browser.faults).toEqual([]);
    await site.comeBack();
  });

  it('the store was emptied and cannot be filled: the page does not claim to be ready', async () => {
    await page.goto('/');
    await page.getByText('Works offline: ready.').waitFor();
    await page.evaluate(async () => {
      for (const name of await caches.keys()) await caches.delete(name);
    });
    site.breakPaths(/\/offline\//u);
    await page.goto('/targets/half-supply/');
    await page.getByText('Works offline: not stored yet.').waitFor();
    expect(await page.getByText('Works offline: ready.').count()).toBe(0);
    expect(browser.faults).toEqual([]);
  });
});

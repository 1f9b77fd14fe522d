import { readdirSync, readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type StaticSite, startStaticSite } from '../../support/static-site.ts';
import { passGates, readPathSoFar, thumb } from '../hands.ts';
import { type KeptBrowser, openKeptBrowser, waitUntilStored } from './open-kept-browser.ts';

const { press } = thumb;
const pages = readdirSync('dist', { recursive: true, encoding: 'utf8' })
  // A tree on paper and the guide for authors are not stored.
  .filter((file) => file.endsWith('.html') && !/^trees\/[^/]+\/all\/|^guide\/[^/]+\//u.test(file))
  .map((file) => ({ file, address: `/${file.replace(/index\.html$/u, '')}` }));

let site: StaticSite;
let browser: KeptBrowser;
/** The whole document of some pages as the server sent them, before the network went. */
const online = new Map<string, string>();
const sample = [
  '/',
  '/trees/psu-5v-low/',
  '/trees/psu-5v-low/rail-bare/',
  '/trees/floppy-no-read/',
  '/targets/half-supply/',
  '/cautions/mains/',
  '/units/quillon-44/',
  '/hand-over/',
];

beforeAll(async () => {
  site = await startStaticSite('dist');
  browser = await openKeptBrowser(site.address);
  const page = await browser.openWindow();
  // One visit, to a page in the middle of the site.
  await page.goto('/cautions/static/');
  await waitUntilStored(page);
  for (const address of sample) online.set(address, await (await fetch(`${site.address}${address}`)).text());
  await site.goDown();
  await page.close();
});
afterAll(async () => {
  await browser.end();
});

/** Types a symptom on the page shown, walks its tree to a cause. */
async function diagnose(page: Page): Promise<void> {
  await page.getByRole('combobox').fill('5v rail to low');
  await press(page.getByRole('option').filter({ hasText: '5 V rail too low' }).first());
  await page.waitForURL('**/trees/psu-5v-low/**');
  if (!page.url().includes('/supply-kind/')) await press(page.getByRole('link', { name: /^Start:/u }));
  await page.waitForURL('**/trees/psu-5v-low/supply-kind/**');
  await press(page.getByRole('link', { name: 'A heavy transformer inside the case' }));
  await page.waitForURL('**/rail-bare/#*');
  await passGates(page);
  await press(page.getByRole('link', { name: /^Low/u }));
  await page.waitForURL('**/regulator-out/#*');
  await press(page.getByRole('link', { name: /^Right at the regulator: lost on the way/u }));
  await page.waitForURL('**/path-drop/#*');
  await press(page.getByRole('link', { name: /^One step stands out/u }));
  await page.waitForURL('**/voltage-lost/#*');
}

describe('with the network off after one visit to one page', () => {
  it('the network is off', async () => {
    await expect(fetch(site.address)).rejects.toThrow();
  });

  it('a symptom is found as it is first typed, and its tree walked to a cause', async () => {
    const page = await browser.openWindow();
    await page.goto('/');
    await diagnose(page);

    expect(await page.getByRole('heading', { level: 1 }).textContent()).toContain(
      'Voltage lost in a plug, switch or joint',
    );
    expect(await readPathSoFar(page)).toHaveLength(4);
    expect(browser.faults).toEqual([]);
    await page.close();
  });

  it('all of it again after the browser was closed and opened', async () => {
    await browser.restart();
    const page = await browser.openWindow();
    await page.goto('/');
    await waitUntilStored(page);
    await diagnose(page);

    expect(await readPathSoFar(page)).toHaveLength(4);
    expect(browser.faults).toEqual([]);
    await page.close();
  });

  it('a search in a link is answered', async () => {
    const page = await browser.openWindow();
    await page.goto('/?q=no%20sound%20at%20all');
    await page.getByRole('option').first().waitFor();

    expect(await page.getByRole('option').first().textContent()).toMatch(/sound|silent/iu);
    await page.close();
  });

  it('a board puts its own points into a check', async () => {
    const page = await browser.openWindow();
    await page.goto('/trees/psu-5v-low/rail-bare/#unit=quillon-44&supply-kind=iron');
    await page
      .getByText(/^On the Quillon 44/u)
      .first()
      .waitFor({ state: 'attached' });
    await page.close();
  });

  it('every fifth page is, byte for byte, the one that the build made', async () => {
    // offline-budget.test.ts holds every file of the packs against the build.
    const some = pages.filter((_, place) => place % 5 === 0);
    const page = await browser.openWindow();
    await page.goto('/');
    const hashes = await page.evaluate(
      async (addresses) => {
        const found: Record<string, string> = {};
        for (const address of addresses) {
          const bytes = await (await fetch(address)).arrayBuffer();
          const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));
          found[address] = Array.from(digest, (byte) => byte.toString(16).padStart(2, '0')).join('');
        }
        return found;
      },
      some.map(({ address }) => address),
    );

    expect(pages.length).toBeGreaterThan(600);
    const { createHash } = await import('node:crypto');
    const differing = some.filter(
      ({ file, address }) =>
        hashes[address] !==
        createHash('sha256')
          .update(readFileSync(`dist/${file}`))
          .digest('hex'),
    );
    expect(differing).toEqual([]);
    await page.close();
  });

  it.each(sample)('%s opens, its <main> the one served online', async (address) => {
    const page = await browser.openWindow();
    const response = await page.goto(address);
    const main = /<main[\s\S]*<\/main>/u;

    expect(response?.fromServiceWorker()).toBe(true);
    expect(main.exec((await response?.text()) ?? '')?.[0]).toBe(main.exec(online.get(address) ?? '')?.[0]);
    expect(await page.locator('main h1').count()).toBeGreaterThan(0);
    await page.close();
  });

  it('an address without its last slash leads to the page, the fragment kept', async () => {
    const page = await browser.openWindow();
    await page.goto('/trees/psu-5v-low/rail-bare#supply-kind=iron');

    expect(new URL(page.url()).pathname).toBe('/trees/psu-5v-low/rail-bare/');
    expect(await readPathSoFar(page)).toHaveLength(1);
    await page.close();
  });

  it('an address that leads nowhere says so, and its search works', async () => {
    const page = await browser.openWindow();
    const response = await page.goto('/trees/never-written/');

    expect(response?.status()).toBe(404);
    expect(await page.getByRole('heading', { level: 1 }).textContent()).toBe('No such page');
    await page.getByRole('combobox').fill('no sound');
    await page.getByRole('option').first().waitFor();
    await page.close();
  });
});

import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openKeptBrowser, waitUntilStored } from '../journeys/offline/open-kept-browser.ts';
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

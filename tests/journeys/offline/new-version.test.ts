import { rmSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { makeOtherVersion, type OtherVersion } from '../../support/other-version.ts';
import { type StaticSite, startStaticSite } from '../../support/static-site.ts';
import { passGates, thumb } from '../hands.ts';
import { type KeptBrowser, openKeptBrowser, waitUntilStored } from './open-kept-browser.ts';

const { press } = thumb;
const job = '/trees/psu-5v-low/regulator-out/#supply-kind=iron&rail-bare=low';

let two: OtherVersion;
let site: StaticSite;
let browser: KeptBrowser;

// A browser that has stored version one; each test begins with a copy of what it keeps.
let stored: string;
let port: number;
beforeAll(async () => {
  two = await makeOtherVersion('two');
  site = await startStaticSite('dist');
  port = Number(new URL(site.address).port);
  browser = await openKeptBrowser(site.address);
  const page = await browser.openWindow();
  await page.goto('/');
  await waitUntilStored(page);
  stored = await browser.leaveProfile();
  await site.goDown();
});
afterAll(() => {
  two.remove();
  rmSync(stored, { recursive: true, force: true });
});

beforeEach(async () => {
  site = await startStaticSite('dist', '/', port);
  browser = await openKeptBrowser(site.address, stored);
});
afterEach(async () => {
  await browser.end();
  await site.goDown();
});

const offer = (page: Page) => page.getByText('A new version is ready.');
const useItNow = (page: Page) => page.getByRole('button', { name: 'Use it now' });

async function versionOf(page: Page): Promise<'one' | 'two'> {
  const foot = await page.locator('.colophon').textContent();
  return foot?.includes('Version two.') === true ? 'two' : 'one';
}

async function waitForVersionTwo(page: Page): Promise<void> {
  await page.getByText('Version two.').waitFor();
}

describe('a new version', () => {
  it('while a job is open, is offered at the foot of the page and not taken, from check to check', async () => {
    const page = await browser.openWindow();
    await page.goto(job);
    site.publish(two.folder);
    await page.reload();
    await offer(page).waitFor();

    expect(await page.locator('.offer.in-sight').count()).toBe(0);
    expect(await versionOf(page)).toBe('one');

    await passGates(page);
    await press(page.getByRole('link', { name: /^Right at the regulator: lost on the way/u }));
    await page.waitForURL('**/path-drop/#*');
    await offer(page).waitFor();

    expect(await versionOf(page)).toBe('one');
    expect(await page.evaluate(async () => (await navigator.serviceWorker.getRegistration())?.waiting?.state)).toBe(
      'installed',
    );
  });

  it('is taken when a person says so; address and answers stay', async () => {
    const page = await browser.openWindow();
    site.publish(two.folder);
    await page.goto(job);
    await offer(page).waitFor();
    await press(useItNow(page));
    await waitForVersionTwo(page);

    expect(page.url()).toBe(`${site.address}${job}`);
    expect(browser.faults).toEqual([]);
  });

  it('lies in sight where no job is open, until it is put off', async () => {
    const page = await browser.openWindow();
    site.publish(two.folder);
    await page.goto('/targets/');
    await page.locator('.offer.in-sight').waitFor();
    await press(page.getByRole('button', { name: 'Later' }));
    await page.goto('/cautions/');
    await offer(page).waitFor();

    expect(await page.locator('.offer.in-sight').count()).toBe(0);
    expect(await versionOf(page)).toBe('one');
  });

  it('stands at the foot of every page while the bench log has a job open', async () => {
    const page = await browser.openWindow();
    await page.goto('/');
    await page.evaluate(() => localStorage.setItem('halfsplit.job-open', 'yes'));
    site.publish(two.folder);
    await page.goto('/targets/');
    await page.getByText('Nothing changes until you press “Use it now”, and your answers stay.').waitFor();

    expect(await page.locator('.offer.in-sight').count()).toBe(0);
    expect(await versionOf(page)).toBe('one');
  });

  it('that arrives by half is not used at all, with the network on or off', async () => {
    const page = await browser.openWindow();
    site.publish(two.folder);
    site.breakPaths(/\/offline\/block-keyboard/u);
    await page.goto('/');
    await expect
      .poll(() => site.served.filter(({ path, status }) => path.includes('block-keyboard') && status === 503).length, {
        timeout: 15_000,
      })
      .toBeGreaterThan(0);
    // Of the new version alone: some of its packs came before the one that did not.
    const fetched = site.served.filter(({ path }) => path.startsWith('/offline/'));
    expect(fetched.filter(({ status }) => status === 200).length).toBeGreaterThan(3);
    await page.reload();
    await waitUntilStored(page);
    expect(await offer(page).count()).toBe(0);

    await site.goDown();
    for (const address of ['/', '/targets/', '/trees/psu-5v-low/', '/trees/keyboard-dead-row/', '/units/']) {
      await page.goto(address);
      expect(await versionOf(page), address).toBe('one');
    }

    await site.comeBack();
    site.breakPaths(undefined);
    await page.goto('/');
    await offer(page).waitFor();
    await press(useItNow(page));
    await waitForVersionTwo(page);
    await site.goDown();
    for (const address of ['/', '/targets/', '/trees/psu-5v-low/', '/trees/keyboard-dead-row/', '/units/']) {
      await page.goto(address);
      expect(await versionOf(page), address).toBe('two');
    }
  });

  it('is not taken while another window has a job open; after that, other windows are told', async () => {
    const atWork = await browser.openWindow();
    // The first answer comes without a new page, as where a board is chosen.
    await atWork.goto('/trees/psu-5v-low/supply-kind/');
    await atWork.evaluate(() => history.replaceState(null, '', '#supply-kind=iron'));
    await waitUntilStored(atWork);
    const idle = await browser.openWindow();
    site.publish(two.folder);
    await idle.goto('/');
    await offer(idle).waitFor();
    await press(useItNow(idle));
    await idle.getByText('A diagnosis is open in another window of this site.').waitFor();

    expect(await versionOf(idle)).toBe('one');
    expect(await versionOf(atWork)).toBe('one');

    await atWork.goto('/hand-over/');
    await press(useItNow(idle));
    await waitForVersionTwo(idle);
    await atWork.getByText('Another window switched to a new version').waitFor();
    expect(await versionOf(atWork)).toBe('one');
    // The page of version one gets no data of version two.
    expect(
      await atWork.evaluate(() =>
        fetch('/data/search.json').then(
          () => 'sent',
          () => 'refused',
        ),
      ),
    ).toBe('refused');
    expect(
      await idle.evaluate(() =>
        fetch('/data/search.json').then(
          () => 'sent',
          () => 'refused',
        ),
      ),
    ).toBe('sent');

    await press(atWork.getByRole('button', { name: 'Reload this page' }));
    await waitForVersionTwo(atWork);
  });

  it('is there after every window was closed', async () => {
    const page = await browser.openWindow();
    site.publish(two.folder);
    await page.goto(job);
    await offer(page).waitFor();
    await browser.restart();
    await site.goDown();
    const later = await browser.openWindow();
    await later.goto(job);
    await waitForVersionTwo(later);
  });
});

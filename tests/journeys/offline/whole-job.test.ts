import type { Locator, Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { startStaticSite } from '../../support/static-site.ts';
import { passGates, thumb } from '../hands.ts';
import { openKeptBrowser, waitUntilStored } from './open-kept-browser.ts';

const { press } = thumb;
const patience = { timeout: 15_000 };

/** Presses what stands in the step shown; reads the cautions that bar it first, where there are any. */
async function pressBelowCautions(page: Page, thing: Locator): Promise<void> {
  await expect
    .poll(async () => {
      await passGates(page);
      return thing.isVisible();
    }, patience)
    .toBe(true);
  await press(thing);
}

async function pressButton(page: Page, name: string): Promise<void> {
  await pressBelowCautions(page, page.getByRole('button', { name, exact: true }));
}

/** Answers the check shown, and waits for the sheet it leads to. */
async function answer(page: Page, word: string, next: string): Promise<void> {
  await pressBelowCautions(page, page.locator(`a.outcome[data-answers~="${word}"]`));
  await page.waitForURL(`**/${next}/#*`);
}

async function unfold(page: Page, part: string): Promise<void> {
  const details = page.locator(`details[data-part="${part}"]`);
  if ((await details.getAttribute('open')) === null) await press(details.locator('> summary'));
}

it('a job is begun from a search, interrupted, taken up offline through a failed repair to a second cause, proved, printed and posted', async () => {
  const site = await startStaticSite('dist');
  const browser = await openKeptBrowser(site.address);
  let page = await browser.openWindow();
  await page.goto('/');
  await waitUntilStored(page);
  await page.getByRole('combobox').fill('minus twelfe volts gone');
  await press(page.getByRole('option').filter({ hasText: 'A rail is missing' }).first());
  await page.waitForURL('**/trees/neg-rail-missing/**');
  if (!page.url().includes('/look/')) await press(page.getByRole('link', { name: /^Start:/u }));
  await page.waitForURL('**/look/**');
  await answer(page, 'burnt-resistor', 'rail-to-12');
  await answer(page, 'clear', 'rail-ohms');
  await answer(page, 'low', 'short-side');
  await page.getByText('Saved in your bench log').waitFor();

  // Interrupted: the browser is closed, and the network is gone when it is opened again.
  await site.goDown();
  await browser.restart();
  page = await browser.openWindow();
  await page.goto('/log/');
  await press(page.locator('[data-jobs] a').first());
  await page.locator('[data-view="job"] h1').waitFor();
  expect(await page.locator('[data-readings] li').count()).toBe(3);
  await press(page.locator('[data-go-on] a[href*="/short-side/"]').first());
  await page.waitForURL('**/short-side/#*');
  await answer(page, 'still-there', 'short-hunt');
  await answer(page, 'at-capacitor', 'tantalum-shorted');
  await pressButton(page, 'I have done this repair');
  await pressButton(page, 'The same');
  await page.waitForURL((url) => url.hash.endsWith('&did=tantalum-shorted'));

  await press(page.getByRole('link', { name: /^Suggested: repair this.*Series resistor or fuse link open/u }));
  await page.waitForURL('**/link-open/#*');
  await pressButton(page, 'I have done this repair');
  await pressButton(page, 'Repaired');
  await press(page.getByRole('button', { name: 'A part was changed' }));
  await page.getByText('Saved in your bench log').waitFor();
  await pressButton(page, 'Copy as post');
  await page.getByText(/Post copied:|did not allow it/u).waitFor();
  const post = await page.locator('textarea[readonly]').first().inputValue();
  expect(post).toContain('Series resistor or fuse link open');
  expect(post).toContain('/trees/neg-rail-missing/link-open/#look=burnt-resistor&rail-to-12=clear&rail-ohms=low');
  expect(post).toContain('did=tantalum-shorted');

  await press(page.getByRole('link', { name: 'Work out the proof' }));
  await page.locator('[data-view="job"] h1').waitFor();
  await unfold(page, 'proof');
  await page.getByRole('radio', { name: 'In some starts' }).check();
  await page.getByLabel('It failed in').fill('1');
  await page.getByLabel('of so many starts').fill('2');
  // ln 0.05 / ln 0.5 = 4.3: five clean starts for 95 %.
  expect(await page.locator('[data-planned]').textContent()).toMatch(/^5 clean starts in a row/u);
  await page.getByLabel('Clean starts in a row so far').fill('5');
  await pressButton(page, 'Fault stayed away');
  await page.getByText('That is enough: proved.').waitFor();
  await unfold(page, 'close');
  await page.getByLabel('Summary').fill('Two faults, one behind the other.');
  await pressButton(page, 'Close the job');
  await page.locator('[data-job-state]').getByText('Closed: repaired and proved').waitFor();

  const pdf = await page.pdf({ format: 'A4', margin: { top: '10mm', bottom: '10mm', left: '10mm', right: '10mm' } });
  expect(pdf.toString('latin1').match(/\/Type\s*\/Page(?![s\w])/gu)).toHaveLength(1);
  const sheet = (await page.locator('[data-sheet]').textContent())?.replaceAll(/\s+/gu, ' ');
  expect(sheet).toContain('Bead capacitor on the rail shorted: the same as before');
  expect(sheet).toContain('Series resistor or fuse link open');
  expect(sheet).toContain('Two faults, one behind the other.');
  expect(browser.faults).toEqual([]);
  await browser.end();
});

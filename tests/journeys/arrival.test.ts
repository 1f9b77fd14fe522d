import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { passGates } from './hands.ts';
import { desktop, phone, useBench, type Visit } from './open-browser.ts';
import { readStore } from './read-store.ts';

const bench = useBench();

const read = 'first-plug mains scope-ground charged-capacitor hot-parts overvoltage first-soak hot-plugging static';
const foreign = '/trees/psu-5v-low/regulator-out/#unit=quillon-44&supply-kind=brick&rail-bare=none';

async function visitPhone(): Promise<Visit> {
  const visit = await bench.visit(phone);
  await visit.remember('halfsplit.marks', read);
  return visit;
}

async function listAnswers(page: Page): Promise<readonly string[]> {
  return (await readStore(page)).filter(({ kind }) => kind === 'answer').map(({ node, value }) => `${node}=${value}`);
}

/** Answers the first check of the tree, and waits until it is in the log. */
async function answerFirst({ page, open }: Visit): Promise<void> {
  await open('/trees/psu-5v-low/supply-kind/');
  await page.locator('a.outcome[data-answers="iron"]').tap();
  await page.waitForURL('**/rail-bare/#*');
  await page.getByText('Saved in your bench log').waitFor();
}

/** A press notes at once what it has to tell the log: a page that has shown itself and holds no note has nothing more to write. */
async function settle(page: Page): Promise<void> {
  await page.waitForLoadState('load');
  await page.locator('node-walk:not(:defined)').waitFor({ state: 'detached' });
  // One turn later the page has also heard that it is shown.
  await page.evaluate(() => new Promise((resolve) => setTimeout(resolve)));
  await expect
    .poll(() => page.evaluate(() => Object.keys(localStorage).filter((key) => key.includes('.note.')).length))
    .toBe(0);
}

describe('an address that was not reached by a link or press of this site in this tab', () => {
  it('writes nothing into the open job, until its reader answers; then what came with it goes along', async () => {
    const visit = await visitPhone();
    const { page, open } = visit;
    await answerFirst(visit);
    await open(foreign);
    await settle(page);
    await page.reload();
    await settle(page);
    expect(await listAnswers(page)).toEqual(['supply-kind=iron']);
    expect((await readStore(page)).some(({ kind }) => kind === 'unit')).toBe(false);

    // What was read beside the unit of the job is not taken for the unit of a link.
    await passGates(page);
    await page.locator('a.outcome[data-answers="high"]').tap();
    await page.waitForURL('**/rail-too-high/#*');
    await expect
      .poll(async () => (await listAnswers(page)).toSorted())
      .toEqual(['rail-bare=none', 'regulator-out=high', 'supply-kind=iron']);
    expect((await readStore(page)).filter(({ kind }) => kind === 'unit')).toMatchObject([{ slug: 'quillon-44' }]);
  });

  it('begins no job in a tab that has been in the tree before', async () => {
    const { page, open } = await visitPhone();
    await open('/trees/psu-5v-low/supply-kind/');
    await settle(page);
    await open(foreign);
    await settle(page);
    // Another one, as from a bookmark, and both looked at again.
    await page.goto('/trees/psu-5v-low/trough/#supply-kind=iron&regulator-out=low');
    await settle(page);
    await page.goBack();
    await page.waitForURL('**/regulator-out/#*');
    await settle(page);
    await page.goForward();
    await settle(page);
    expect(await readStore(page)).toEqual([]);
    expect(await page.evaluate(() => localStorage.getItem('halfsplit.job-open'))).toBeNull();
  });

  it('takes nothing back of what the job holds and it does not', async () => {
    const visit = await visitPhone();
    const { page, open } = visit;
    await answerFirst(visit);
    await open('/trees/psu-5v-low/rail-bare/');
    await settle(page);
    expect((await readStore(page)).map(({ kind }) => kind)).not.toContain('undo');
  });

  it('is told from a press also where the browser names no page that its reader comes from', async () => {
    const visit = await bench.visit({ ...phone });
    await visit.remember('halfsplit.marks', read);
    await visit.page.addInitScript(() => Object.defineProperty(Document.prototype, 'referrer', { get: () => '' }));
    await answerFirst(visit);
    await visit.page.locator('a.outcome[data-answers="low"]').tap();
    await visit.page.waitForURL('**/regulator-out/#*');
    await expect.poll(() => listAnswers(visit.page)).toEqual(['supply-kind=iron', 'rail-bare=low']);
  });
});

describe('a link that holds a diagnosis half done', () => {
  it('opens on what was found so far and what is likeliest, then the step; not once its reader goes on', async () => {
    const visit = await bench.visit(phone);
    const { page, open } = visit;
    await open(
      '/trees/psu-5v-low/regulator-out/#unit=quillon-44&supply-kind=iron&rail-bare=4.52V&audio-hum/earth-path=in',
    );
    const found = page.getByRole('heading', { name: 'Found so far: Quillon 44 two-voice synthesizer' });
    await found.waitFor();
    const section = page.locator('.so-far');
    expect(await section.locator('li').allTextContents()).toEqual([
      'What makes the 5 V? A heavy transformer inside the case',
      '5 V at the farthest chip, all add-ons off? 4.52\u00a0V: low',
      expect.stringMatching(/^Does the earth reach the metal case\? \(.+\) /u),
    ]);
    expect(await section.getByText(/^Likeliest now: .+; then .+\.$/u).isVisible()).toBe(true);
    // Above the question that holds the step back.
    const gate = page.locator('.gate-now');
    expect((await found.boundingBox())?.y ?? 1e6).toBeLessThan((await gate.boundingBox())?.y ?? 0);

    await passGates(page);
    await page.locator('a.outcome').first().tap();
    await page.waitForURL((url) => !url.pathname.endsWith('/regulator-out/'));
    expect(await section.isVisible()).toBe(false);
  });

  it('says nothing above a step without answers, nor where its checks are asked for', async () => {
    const { page, open } = await bench.visit(phone);
    for (const fragment of ['', '#unit=quillon-44', '#supply-kind=iron&ask=trough']) {
      await open(`/trees/psu-5v-low/trough/${fragment}`);
      expect(await page.locator('.so-far').isVisible()).toBe(false);
    }
  });

  it('on a wide screen has it beside the step', async () => {
    const { page, open } = await bench.visit(desktop);
    await open('/trees/psu-5v-low/regulator-out/#supply-kind=iron&rail-bare=low');
    await page.locator('[data-walked][data-told]').waitFor();
    expect(await page.locator('.so-far').isVisible()).toBe(false);
    expect((await page.locator('[data-walked] li').last().boundingBox())?.y ?? 1e6).toBeLessThan(800);
  });
});

describe('coming back', () => {
  it('by the browser’s Back puts an answer in again that Back had taken back', async () => {
    const visit = await visitPhone();
    const { page } = visit;
    await answerFirst(visit);
    await page.locator('[data-back]').tap();
    await page.waitForURL('**/supply-kind/');
    await expect.poll(async () => (await readStore(page)).filter(({ kind }) => kind === 'undo').length).toBe(1);
    await page.goBack();
    await page.waitForURL('**/rail-bare/#*');
    await settle(page);
    await page.reload();
    await settle(page);
    // Given, taken back, given again: once each.
    const kinds = (await readStore(page)).map(({ kind }) => kind);
    // What was said of the plug comes into the job with the first answer.
    expect(kinds.toSorted()).toEqual(['answer', 'answer', 'intake', 'opened', 'undo']);
  });

  it('by “Go on” of the log writes nothing twice and goes on in the same job', async () => {
    const visit = await visitPhone();
    const { page } = visit;
    await answerFirst(visit);
    await page.goto('/log/');
    await page.locator('[data-jobs] a').first().tap();
    await page.locator('[data-go-on] a').first().tap();
    await page.waitForURL('**/trees/psu-5v-low/**');
    await settle(page);
    expect(await listAnswers(page)).toEqual(['supply-kind=iron']);
    await page.locator('a.outcome[data-answers="low"]').tap();
    await page.waitForURL('**/regulator-out/#*');
    await expect.poll(() => listAnswers(page)).toEqual(['supply-kind=iron', 'rail-bare=low']);
    expect(new Set((await readStore(page)).map(({ job }) => job)).size).toBe(1);
  });
});

describe('the page’s Back', () => {
  it('keeps a reading that led nowhere, where a suggestion was followed and not answered', async () => {
    const { page, open } = await visitPhone();
    await open('/trees/psu-5v-low/rail-bare/#supply-kind=iron');
    const field = page.getByLabel('Reading', { exact: true });
    await field.tap();
    await field.fill('4.74');
    await page.getByRole('button', { name: 'Save as too close to call' }).tap();
    const next = page.locator('[data-likely] a[href*="rail-bare=4.74V"]').first();
    await next.tap();
    await page.waitForURL((url) => !url.pathname.endsWith('/rail-bare/'));
    expect(new URL(page.url()).hash).toContain('rail-bare=4.74V');
    await page.locator('[data-walked][data-told]').waitFor({ state: 'attached' });
    await page.locator('[data-back]').tap();
    await page.waitForURL('**/rail-bare/#*');
    expect(new URL(page.url()).hash).toContain('supply-kind=iron&rail-bare=4.74V');
    await settle(page);
    expect((await readStore(page)).map(({ kind }) => kind)).not.toContain('undo');

    // Once more: the answer that led here is taken back, what was read here stays.
    await page.locator('[data-back]').tap();
    await page.waitForURL('**/supply-kind/#*');
    expect(new URL(page.url()).hash).toContain('#rail-bare=4.74V');
  });

  it('takes back a reading that led here, judged by the limits of its target', async () => {
    const { page, open } = await visitPhone();
    // 4.52 V is below 4.75 V by far more than any meter's doubt.
    await open('/trees/psu-5v-low/regulator-out/#supply-kind=iron&rail-bare=4.52V');
    await page.locator('[data-walked][data-told]').waitFor({ state: 'attached' });
    await page.locator('[data-back]').tap();
    await page.waitForURL('**/rail-bare/#supply-kind=iron');
  });
});

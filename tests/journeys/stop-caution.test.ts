import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readPathSoFar } from './hands.ts';
import { type Bench, desktop, openBench, phone } from './open-browser.ts';

let bench: Bench;
beforeAll(async () => {
  bench = await openBench();
});
afterAll(async () => {
  await bench.close();
});

// A powered check of a unit with a transformer, so the mains caution stops the reader.
const powered = '/trees/psu-5v-low/rail-bare/';
const link = `${powered}#supply-kind=iron`;
const screens = [
  ['a phone', phone],
  ['a desktop', desktop],
] as const;

describe.each(screens)('a step under a stop caution, opened by a direct link on %s', (_name, screen) => {
  it('shows the caution as the whole first screen: neither instruction, target nor outcome can be seen or read out', async () => {
    const { page, open, faults, end } = await bench.visit(screen);
    await open(link);

    await page.getByRole('region', { name: /^Stop: Mains/u }).waitFor();
    const box = await page.getByRole('region', { name: /^Stop: Mains/u }).boundingBox();
    expect(box?.y ?? 1000).toBeLessThan(140);
    expect((box?.y ?? 0) + (box?.height ?? 0)).toBeGreaterThanOrEqual(screen.viewport.height - 60);
    expect(await page.locator('#step').isVisible()).toBe(false);
    expect(await page.getByRole('heading', { level: 1 }).count()).toBe(0);
    expect(await page.locator('a.outcome:visible').count()).toBe(0);
    expect(await page.locator('.target:visible').count()).toBe(0);
    expect(faults).toEqual([]);
    await end();
  });

  it('shows the step once the caution was read, with the caution still above it as one line, and keeps the answers', async () => {
    const { page, open, faults, end } = await bench.visit(screen);
    await open(link);
    await page.getByRole('link', { name: /^I have read this; it is safe/u }).click();

    await page.getByRole('heading', { level: 1 }).waitFor();
    const caution = await page.getByRole('region', { name: /^Stop: Mains/u }).boundingBox();
    const heading = await page.getByRole('heading', { level: 1 }).boundingBox();
    expect(caution?.height ?? 1000).toBeLessThan(80);
    expect(caution?.y ?? 1000).toBeLessThan(heading?.y ?? 0);
    expect(await page.locator('a.outcome:visible').count()).toBe(4);
    expect(await page.evaluate(() => document.activeElement?.matches('.caution:not(.read) summary, h1'))).toBe(true);
    expect(await readPathSoFar(page)).toEqual(['What makes the 5 V?: A heavy transformer inside the case']);
    expect(faults).toEqual([]);
    await end();
  });

  it('stops anew in a new browser, and not a second time in this one', async () => {
    const visit = await bench.visit(screen);
    await visit.open(link);
    await visit.page.getByRole('link', { name: /^I have read this; it is safe/u }).click();
    await visit.open('/trees/psu-5v-low/regulator-out/');
    expect(await visit.page.locator('#step').isVisible()).toBe(true);

    const other = await bench.visit(screen);
    await other.open('/trees/psu-5v-low/regulator-out/');
    expect(await other.page.locator('#step').isVisible()).toBe(false);
    expect([...visit.faults, ...other.faults]).toEqual([]);
    await visit.end();
    await other.end();
  });

  it('leads whoever refuses to the hand-over sheet, with the answers given so far', async () => {
    const { page, open, faults, end } = await bench.visit(screen);
    await open(link);
    await page.getByRole('link', { name: /^I will not do this/u }).click();
    await page.waitForURL(/\/hand-over\/#/u);

    expect(new URL(page.url()).hash).toBe('#psu-5v-low/supply-kind=iron');
    expect(await page.locator('[data-known-list]').textContent()).toContain('Iron');
    expect(faults).toEqual([]);
    await end();
  });

  it('without script stands above the instruction, and the outcomes lead on', async () => {
    const { page, open, end } = await bench.visit({ ...screen, javaScriptEnabled: false });
    await open(powered);

    const caution = await page.locator('.caution.stop .text').boundingBox();
    const heading = await page.locator('h1').boundingBox();
    expect(caution).not.toBeNull();
    expect(caution?.y ?? 10_000).toBeLessThan(heading?.y ?? 0);
    expect(await page.locator('.prose').isVisible()).toBe(true);
    await page.getByRole('link', { name: /^Low/u }).click();
    await page.waitForURL('**/trees/psu-5v-low/regulator-out/');
    expect(await page.locator('h1').textContent()).toBe('Is it low at the regulator already?');
    await end();
  });
});

describe('the page of a whole tree', () => {
  it.each([true, false])(
    'shows every sheet with its cautions open above it, script or not (%s)',
    async (javaScriptEnabled) => {
      const { page, open, end } = await bench.visit({ ...phone, javaScriptEnabled });
      await open('/trees/psu-5v-low/');

      const sheet = page.locator('article[data-node="rail-bare"]');
      expect(await sheet.locator('.caution.stop .text').isVisible()).toBe(true);
      expect(await sheet.locator('.heading').isVisible()).toBe(true);
      const caution = await sheet.locator('.caution.stop').boundingBox();
      const heading = await sheet.locator('.heading').boundingBox();
      expect(caution?.y ?? 1e6).toBeLessThan(heading?.y ?? 0);
      expect(await page.locator('details.outline').isVisible()).toBe(true);
      await end();
    },
  );
});

describe('where the mains is', () => {
  it('is asked once a job; outside the case takes the mains caution off a powered check, and no other caution', async () => {
    const { page, open, faults, end } = await bench.visit(phone);
    await open(powered);
    await page.getByRole('radio', { name: /a separate supply feeds it/u }).check();
    await page.getByRole('link', { name: /^I have read this; it is safe/u }).click();

    expect(await page.locator('[data-caution="mains"]').isVisible()).toBe(false);
    expect(await page.locator('[data-caution="overvoltage"]').isVisible()).toBe(true);
    await open('/trees/psu-5v-low/regulator-out/');
    expect(await page.locator('[data-caution="mains"]').isVisible()).toBe(false);
    expect(await page.locator('[data-caution="charged-capacitor"]').isVisible()).toBe(true);
    expect(await page.locator('[data-caution="hot-parts"]').isVisible()).toBe(true);
    expect(faults).toEqual([]);
    await end();
  });

  it('leaves the mains caution on a step that has it for more than its power: a fuse, the unit unplugged', async () => {
    const { page, open, remember, end } = await bench.visit(phone);
    await remember('halfsplit.mains', 'outside');
    // what-goes of psu-fuse-blows: power off, and the author placed the caution.
    await open('/trees/psu-fuse-blows/what-goes/');
    expect(await page.locator('[data-caution="mains"]').isVisible()).toBe(true);
    await end();
  });

  it('counts as inside and bare for whoever answers that they do not know', async () => {
    const { page, open, end } = await bench.visit(phone);
    await open(powered);
    expect(await page.getByRole('radio', { name: 'I do not know' }).isChecked()).toBe(true);
    await page.getByRole('link', { name: /^I have read this; it is safe/u }).click();
    expect(await page.locator('[data-caution="mains"]').isVisible()).toBe(true);
    await end();
  });
});

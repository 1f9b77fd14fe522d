import { loadLibrary } from '#build/library.ts';
import { beforeAll, describe, expect, it } from 'vitest';
import { passGates } from './hands.ts';
import { phone, useBench, type Visit } from './open-browser.ts';

/** The ten trees with the most steps: where they fit, all do. */
const trees = [...loadLibrary().trees.values()].toSorted((a, b) => b.nodes.length - a.nodes.length).slice(0, 10);

const bench = useBench();
let visit: Visit;
beforeAll(async () => {
  visit = await bench.visit(phone);
  // What the page remembers once these cautions were read and these set-ups told in this job.
  await visit.remember(
    'halfsplit.marks',
    [...loadLibrary().cautions.keys(), 'set:case-open', 'set:discharged'].join(' '),
  );
});

// Checks under the mains caution, with an instruction, a target with a place, and two to four outcomes.
const typicalChecks = ['/trees/psu-5v-low/tab-heat/', '/trees/clock-dead/five-rail/', '/trees/clock-dead/feed-drop/'];

describe('a typical check on a phone of 390 by 844, its cautions read and set-ups told', () => {
  it.each(typicalChecks)('shows caution, heading, target numeral and every outcome on one screen: %s', async (path) => {
    await visit.open(path);
    const places = await visit.page.evaluate(() => {
      const bar = document.querySelector('.bar')?.getBoundingClientRect();
      const boxesOf = (selector: string): { top: number; bottom: number }[] =>
        [...document.querySelectorAll(selector)]
          .map((element) => element.getBoundingClientRect())
          .map(({ top, bottom }) => ({ top, bottom }));
      return {
        caution: boxesOf('.caution.danger:not([hidden]) summary'),
        heading: boxesOf('h1'),
        numeral: boxesOf('.target .nominal'),
        outcomes: boxesOf('a.outcome'),
        barTop: bar?.top ?? 0,
      };
    });

    expect(places.caution).toHaveLength(1);
    expect(places.numeral).toHaveLength(1);
    expect(places.outcomes.length).toBeGreaterThanOrEqual(2);
    const lowest = Math.min(844, Math.max(places.barTop, 700));
    for (const box of [...places.caution, ...places.heading, ...places.numeral, ...places.outcomes]) {
      expect(box.top).toBeGreaterThanOrEqual(0);
      expect(box.bottom).toBeLessThanOrEqual(lowest);
    }
    const order = [places.caution, places.heading, places.numeral, places.outcomes].map(([first]) => first?.top ?? -1);
    expect(order).toEqual(order.toSorted((one, other) => one - other));
  });

  it('sets the target in numerals that can be read at arm’s length: twice the size of the text', async () => {
    await visit.open('/trees/psu-5v-low/tab-heat/');
    const sizes = await visit.page.evaluate(() => ({
      numeral: Number.parseFloat(
        getComputedStyle(document.querySelector('.target .nominal') ?? document.body).fontSize,
      ),
      text: Number.parseFloat(getComputedStyle(document.querySelector('.prose p') ?? document.body).fontSize),
    }));

    expect(sizes.numeral).toBeGreaterThanOrEqual(2 * sizes.text);
  });
});

describe('the set-ups of a step', () => {
  it('are told in full until a step with them was answered, then in one line that opens again', async () => {
    const { page, open } = await bench.visit(phone);
    const text = page.locator('.step > .setups li').getByText('every large capacitor below 5 V');
    await open('/trees/clock-dead/five-rail/');
    await passGates(page);
    expect(await text.isVisible()).toBe(true);
    await page.reload();
    expect(await text.isVisible()).toBe(true);
    await page.locator('a.outcome[data-answers="low none"]').tap();
    await page.waitForURL((url) => !url.pathname.includes('five-rail'));
    // With the first answer the job begins, and takes over what was read.
    await page.getByText('Saved in your bench log').waitFor({ state: 'attached' });
    // By a press of this site: an address typed anew could mean another unit.
    await page.getByRole('link', { name: 'The whole graph' }).tap();
    // Loaded with its style: until then both of its graphs can be seen.
    await page.waitForURL('**/trees/clock-dead/#*');
    await page.locator('a[href*="/clock-dead/feed-drop/"]').locator('visible=true').last().tap();
    await page.waitForURL('**/feed-drop/#five-rail=low');
    await page.locator('node-walk:not(:defined)').waitFor({ state: 'detached' });
    await expect.poll(() => text.isVisible()).toBe(false);
    expect(await page.locator('.step > .setups > summary').textContent()).toContain('Unplugged and proved discharged');
    await page.locator('.step > .setups > summary').tap();
    expect(await text.isVisible()).toBe(true);
  });
});

describe('the page of a tree', () => {
  it.each(trees)(
    '$slug says what it holds on at most three screens of a phone, and its graph fits the width',
    async ({ slug }) => {
      await visit.open(`/trees/${slug}/`);
      const graph = await visit.page.locator('.graph').boundingBox();
      const ladder = await visit.page.locator('.ladder svg').boundingBox();

      expect(await visit.page.getByRole('link', { name: /^Start: / }).isVisible()).toBe(true);
      expect(graph?.y ?? Number.POSITIVE_INFINITY).toBeLessThanOrEqual(3 * 844);
      expect(ladder?.width ?? Number.POSITIVE_INFINITY).toBeLessThanOrEqual(390);
      expect(await visit.page.locator('article').count()).toBe(0);
    },
  );
});

describe('what a thumb presses', () => {
  // 44 px: the size that issue and WCAG 2.2, 2.5.5 (enhanced) ask of a target.
  it.each(['/trees/psu-5v-low/all/', '/trees/dram-garbage/all/', '/trees/audio-silent/all/'])(
    'is at least 44 px high: every outcome on %s',
    async (path) => {
      await visit.open(path);
      const heights = await visit.page
        .locator('a.outcome')
        .evaluateAll((links) => links.map((link) => link.getBoundingClientRect().height));

      expect(heights.length).toBeGreaterThan(20);
      expect(Math.min(...heights)).toBeGreaterThanOrEqual(44);
    },
  );

  it('is at least 44 px high: stop screen, moves, unit and link of a check', async () => {
    const fresh = await bench.visit(phone);
    await fresh.open('/trees/psu-5v-low/rail-bare/');
    const measure = async (selector: string): Promise<readonly number[]> =>
      fresh.page
        .locator(`${selector}:visible`)
        .evaluateAll((things) => things.map((thing) => thing.getBoundingClientRect().height));
    const onStopScreen = await measure('.gate a');
    await passGates(fresh.page);
    const onCheck = [
      ...(await measure('.bar a')),
      ...(await measure('.bar summary')),
      ...(await measure('select')),
      ...(await measure('button')),
    ];

    expect(onStopScreen).toHaveLength(3);
    expect(onCheck.length).toBeGreaterThanOrEqual(5);
    expect(Math.min(...onStopScreen, ...onCheck)).toBeGreaterThanOrEqual(44);
  });

  it('never has to be looked for sideways: no page is wider than the phone', async () => {
    for (const path of [
      '/',
      '/guide/',
      '/trees/psu-5v-low/',
      '/trees/psu-5v-low/all/',
      '/trees/psu-5v-low/tab-heat/',
      '/trees/psu-5v-low/voltage-lost/',
      '/targets/rail-5v-at-chip/',
      '/units/quillon-44/',
      '/targets/',
      '/cautions/mains/',
      '/hand-over/',
    ]) {
      await visit.open(path);
      expect(await visit.page.evaluate(() => document.documentElement.scrollWidth), path).toBeLessThanOrEqual(390);
    }
  });
});

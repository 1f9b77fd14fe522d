import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { type Hands, keyboard, passGates, readPathSoFar, thumb } from './hands.ts';
import { desktop, phone, useBench } from './open-browser.ts';

const bench = useBench();

// Written by hand from content/trees/power/psu-5v-low.mdx: a 5 V rail that is right at the regulator and lost in a plug.
const answers = 'supply-kind=iron&rail-bare=low&regulator-out=in&path-drop=high';
const pathSoFar = [
  'What makes the 5 V?: A heavy transformer inside the case',
  '5 V at the farthest chip, all add-ons off?: Low',
  'Is 5 V low at the regulator already?: Right at the regulator: lost on the way',
  'Where on the way is it lost?: One step stands out',
];

const ways = [
  ['a phone, by touch', phone, thumb],
  ['a desktop, by keyboard alone', desktop, keyboard],
] as const;

/** Walks from the tree to the cause, answering four checks and reading the stop caution on the way. */
async function walkToCause(page: Page, hands: Hands): Promise<void> {
  const { press } = hands;
  await press(page.getByRole('link', { name: /^Start:/u }));
  await page.waitForURL('**/trees/psu-5v-low/supply-kind/');
  await press(page.getByRole('link', { name: 'A heavy transformer inside the case' }));
  await page.waitForURL('**/rail-bare/#*');
  await passGates(page, hands);
  await press(page.getByRole('link', { name: /^Low/u }));
  await page.waitForURL('**/regulator-out/#*');
  await press(page.getByRole('link', { name: /^Right at the regulator: lost on the way/u }));
  await page.waitForURL('**/path-drop/#*');
  await press(page.getByRole('link', { name: /^One step stands out/u }));
  await page.waitForURL('**/voltage-lost/#*');
}

describe.each(ways)('from a symptom to its cause, on %s', (_name, screen, hands) => {
  it('four checks lead from the tree to the cause, the address carries the answers, and opens the same in a new browser', async () => {
    const visit = await bench.visit(screen);
    await visit.open('/trees/psu-5v-low/');
    await walkToCause(visit.page, hands);

    const address = new URL(visit.page.url());
    expect(`${address.pathname}${address.hash}`).toBe(`/trees/psu-5v-low/voltage-lost/#${answers}`);
    expect(await visit.page.getByRole('heading', { level: 1 }).textContent()).toContain(
      'Voltage lost in a plug, switch or joint',
    );
    expect(await readPathSoFar(visit.page)).toEqual(pathSoFar);

    const other = await bench.visit(screen);
    await other.open(`${address.pathname}${address.hash}`);

    expect(await readPathSoFar(other.page)).toEqual(pathSoFar);
    expect(await other.page.locator('h1').textContent()).toBe(await visit.page.locator('h1').textContent());
    expect(other.page.url()).toBe(visit.page.url());
  });

  it('“Path so far” opens, its links lead back to each question, and every answer stays', async () => {
    const visit = await bench.visit(screen);
    await visit.open(`/trees/psu-5v-low/voltage-lost/#${answers}`);
    await passGates(visit.page, hands);
    await hands.press(visit.page.locator('.walked summary'));
    await hands.press(visit.page.getByRole('link', { name: 'Is 5 V low at the regulator already?' }).first());
    await visit.page.waitForURL('**/regulator-out/#*');

    expect(new URL(visit.page.url()).hash).toBe(`#${answers}`);
  });

  it('Back undoes the last answer, Start again empties them all', async () => {
    const visit = await bench.visit(screen);
    await visit.open(`/trees/psu-5v-low/voltage-lost/#${answers}`);
    await passGates(visit.page, hands);
    await hands.press(visit.page.getByRole('link', { name: 'Back', exact: true }));
    await visit.page.waitForURL('**/path-drop/#*');

    expect(new URL(visit.page.url()).hash).toBe('#supply-kind=iron&rail-bare=low&regulator-out=in');
    expect(await readPathSoFar(visit.page)).toEqual(pathSoFar.slice(0, 3));

    // It asks before it drops them.
    visit.page.once('dialog', (dialog) => void dialog.accept());
    await hands.press(visit.page.getByRole('link', { name: 'Start again' }));
    await visit.page.waitForURL('**/supply-kind/');

    expect(new URL(visit.page.url()).hash).toBe('');
    expect(await readPathSoFar(visit.page)).toEqual([]);
  });

  it('a fragment without answers, put in place of one with some, empties the path', async () => {
    const visit = await bench.visit(screen);
    await visit.open('/trees/psu-5v-low/supply-kind/#supply-kind=iron&rail-bare=low');
    expect(await readPathSoFar(visit.page)).toHaveLength(2);
    await visit.page.evaluate(() => {
      location.hash = '';
    });
    await visit.page.waitForFunction(() => document.querySelector('[data-walked] .hint') !== null);
    expect(await readPathSoFar(visit.page)).toEqual([]);
  });

  it('a check answered anew stands last, with its new answer, and once', async () => {
    const visit = await bench.visit(screen);
    await visit.open('/trees/psu-5v-low/supply-kind/#supply-kind=iron&rail-bare=low');
    await hands.press(visit.page.getByRole('link', { name: /^A separate brick/u }));
    // By the answers so far the engine goes on, though the tree would ask for the label first.
    await visit.page.waitForURL('**/regulator-out/#*');

    expect(new URL(visit.page.url()).hash).toBe('#rail-bare=low&supply-kind=brick');
  });

  it('another tree is opened with the answers as evidence carried in', async () => {
    const visit = await bench.visit(screen);
    await visit.open('/trees/psu-5v-low/rail-gone/#supply-kind=iron&rail-bare=none');
    await passGates(visit.page, hands);
    const onward = visit.page.getByRole('navigation', { name: 'Open the other tree' }).getByRole('link');
    await hands.press(onward);
    await visit.page.waitForURL(/#.*psu-5v-low/u);

    const { pathname, hash } = new URL(visit.page.url());
    expect(pathname).not.toContain('/psu-5v-low/');
    expect(hash).toBe('#psu-5v-low/supply-kind=iron&psu-5v-low/rail-bare=none');
  });
});

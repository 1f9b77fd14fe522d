import { describe, expect, it } from 'vitest';
import { readPathSoFar } from './hands.ts';
import { phone, useBench } from './open-browser.ts';

const bench = useBench();

const good = 'supply-kind=brick';
const kept = ['What makes the 5 V?: A separate brick, heavy for its size'];

const hostile: readonly (readonly [name: string, fragment: string, told: RegExp])[] = [
  ['an unknown node', `${good}&no-such-node=in`, /“no-such-node=in” was not understood/u],
  ['a repeated key', `supply-kind=iron&${good}`, /supply-kind.*twice/u],
  ['HTML', `${good}&x=<img src=x onerror=alert(1)>`, /was not understood/u],
  ['HTML, as the address bar writes it', `${good}&x=%3Cimg%20src%3Dx%20onerror%3Dalert(1)%3E`, /was not understood/u],
  ['HTML in the place of an answer', `${good}&rail-bare=<script>alert(1)</script>`, /was not understood/u],
  ['broken percent signs', `${good}&%E0%A4%A`, /was not understood/u],
  ['names of the language itself', `${good}&__proto__=in&constructor=in&toString=in`, /was not understood/u],
  ['an emoji and text from right to left', `${good}&🔥=שלום`, /was not understood/u],
  ['a megabyte', `${good}&${'a'.repeat(1_000_000)}`, /longer than 4096/u],
  ['thousands of unknown keys', `${good}${'&a=b'.repeat(900)}`, /more parts/u],
];

describe('a fragment nobody meant', () => {
  it.each(hostile)('is told and left out, and the rest is kept: %s', async (_name, fragment, told) => {
    const { page, open } = await bench.visit(phone);
    let dialogs = 0;
    page.on('dialog', (dialog) => {
      dialogs += 1;
      void dialog.dismiss();
    });
    await open('/trees/psu-5v-low/brick-label/');
    const elementsBefore = await page.locator('img, iframe, script').count();
    // Set from inside, so that nothing on the way to the page shortens or escapes it.
    await page.evaluate((text) => {
      location.hash = text;
    }, fragment);
    await page.waitForFunction(() => document.querySelector('.notices')?.textContent !== '');

    expect(await page.locator('.notices').textContent()).toMatch(told);
    expect(await readPathSoFar(page)).toEqual(kept);
    expect(await page.locator('img, iframe, script').count()).toBe(elementsBefore);
    expect(await page.locator('.notices *:not(p)').count()).toBe(0);
    expect((await page.locator('.notices').textContent())?.length).toBeLessThan(1000);
    expect(dialogs).toBe(0);

    await page.getByRole('link', { name: /^One of the four does not fit/u }).tap();
    await page.waitForURL('**/brick-wrong/#*');
    expect(new URL(page.url()).hash).toBe(`#${good}&brick-label=wrong`);
  });

  it('hurts no page that belongs to no tree', async () => {
    const { page, open } = await bench.visit(phone);
    for (const [, fragment] of hostile.slice(0, 8)) {
      await open(`/hand-over/#${fragment}`);
      expect(await page.getByRole('heading', { level: 1 }).isVisible()).toBe(true);
    }
  });
});

describe('an address that leads nowhere', () => {
  it('gets a page that says so and offers the search and the blocks', async () => {
    const { page, open } = await bench.visit(phone, /status of 404/u);
    await open('/trees/no-such-tree/');

    expect(await page.getByRole('heading', { level: 1 }).textContent()).toBe('No such page');
    expect(await page.getByRole('search').or(page.locator('search-box')).first().isVisible()).toBe(true);
    expect(await page.locator('a[href="/trees/psu-5v-low/"]').count()).toBeGreaterThan(0);
  });

  it('of a tree that is here leads to that tree, with the answers', async () => {
    const { page, open } = await bench.visit(phone, /status of 404/u);
    await open('/trees/psu-5v-low/no-such-step/#supply-kind=iron');
    const near = page.getByText('The tree it names is here: 5 V rail too low');
    await near.waitFor();
    expect(await near.getByRole('link').getAttribute('href')).toBe('/trees/psu-5v-low/#supply-kind=iron');
    await open('/trees/no-such-tree/no-such-step/');
    expect(await page.getByText('The tree it names is here').isVisible()).toBe(false);
  });
});

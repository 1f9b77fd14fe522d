import { readdirSync, readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { readContrast } from './read-contrast.ts';
import { desktop, findViolations, phone, useBench, type Visit } from './open-browser.ts';

const schemes = ['light', 'dark'] as const;
const kinds: readonly (readonly [name: string, path: string, read: string])[] = [
  ['home', '/', ''],
  ['tree', '/trees/psu-5v-low/', ''],
  ['check', '/trees/psu-5v-low/supply-kind/#supply-kind=iron', ''],
  ['check under a stop caution', '/trees/psu-5v-low/rail-bare/', ''],
  ['check, its caution read', '/trees/psu-5v-low/rail-bare/#supply-kind=iron&nonsense=1', 'mains'],
  ['signal path', '/trees/audio-silent/to-speaker/', 'mains'],
  ['cause', '/trees/psu-5v-low/voltage-lost/', 'mains'],
  ['elsewhere', '/trees/psu-5v-low/rail-gone/', 'mains'],
  ['end of the road', '/trees/psu-5v-low/switch-mode-supply/', 'mains'],
  ['target', '/targets/rail-5v-at-chip/', ''],
  ['targets', '/targets/', ''],
  ['caution', '/cautions/mains/', ''],
  ['cautions', '/cautions/', ''],
  ['unit', '/units/quillon-44/', ''],
  ['units', '/units/', ''],
  ['parts', '/parts/', ''],
  ['part', '/parts/d-sub-9-serial/', ''],
  ['pictures', '/pictures/', ''],
  ['circuit', '/circuits/supply-7805/', ''],
  ['reference', '/guide/reference/', ''],
  ['marking and part', '/guide/part/#reservoir', ''],
  ['check with pictures', '/trees/psu-ripple/ripple-rate/', 'mains'],
  ['hand-over', '/hand-over/#psu-5v-low/supply-kind=iron', ''],
  ['draft', '/draft/', ''],
  ['no such page', '/no-such-page/', ''],
];

const bench = useBench();

describe('WCAG 2.2 A and AA as far as axe can judge, light and dark', () => {
  /** By what was read before: the pages of each are opened one after the other. */
  const visits = new Map<string, Visit>();
  beforeAll(async () => {
    for (const read of ['', 'mains']) {
      // One of the pages is the one for dead addresses.
      const visit = await bench.visit(phone, /status of 404/u);
      await visit.remember('halfsplit.marks', read);
      visits.set(read, visit);
    }
  });

  it.each(kinds)('no violation: %s', async (_name, path, read) => {
    const visit = visits.get(read);
    if (visit === undefined) throw new Error(`Nobody has read “${read}”.`);
    await visit.open(path);

    expect(await findViolations(visit.page)).toEqual([]);
  });
});

// WCAG 2.2, 1.4.10 Reflow: 1,280 px at 400 % are 320 CSS px. A window of 800 px is then 200 high.
describe('at a zoom of 400 %', () => {
  const zoomed = { viewport: { width: 320, height: 200 }, hasTouch: true } as const;

  /** What reaches over a side of the window and cannot be scrolled to by itself, and fields that cut their text. */
  const findCut = ({ page }: Visit): Promise<readonly string[]> =>
    page.evaluate(() =>
      [...document.querySelectorAll<HTMLElement>('main, main *, header *, footer *')]
        .filter((part) => {
          if (part.parentElement?.closest('svg, .canvas, .editor') !== null || !part.checkVisibility()) return false;
          const { left, right, width } = part.getBoundingClientRect();
          const isCutField = part.matches('input:not([type="file"])') && part.scrollWidth > part.clientWidth;
          return (width > 0 && (left < -1 || right > innerWidth + 1)) || isCutField;
        })
        .map(({ tagName, className }) => `${tagName} ${className}`),
    );

  it.each([
    ['home', '/'],
    ['tree', '/trees/psu-5v-low/'],
    ['danger gate', '/trees/psu-5v-low/rail-bare/'],
    ['cause', '/trees/psu-5v-low/voltage-lost/#supply-kind=iron'],
    ['log', '/log/'],
    ['new job', '/log/#new'],
    ['draft', '/draft/'],
    ['circuit', '/circuits/supply-7805/'],
    ['unit and its board', '/units/quillon-44/'],
  ])('nothing scrolls sideways and nothing is cut: %s', async (name, path) => {
    const visit = await bench.visit(zoomed);
    if (name !== 'danger gate') await visit.remember('halfsplit.marks', 'first-plug mains');
    await visit.open(path);
    await visit.page.locator('h1:visible, .gate:visible').first().waitFor();

    expect(await visit.page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(320);
    expect(await findCut(visit)).toEqual([]);
  });

  it('nor does the page of a target with values of one’s own scroll sideways', async () => {
    const { page, open } = await bench.visit(zoomed);
    await open('/targets/reservoir-ripple/');
    await page.locator('own-values input').first().waitFor({ state: 'attached' });

    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(320);
  });

  it('nor at a check with its keypad, the reading in full view', async () => {
    const visit = await bench.visit(zoomed);
    await visit.remember('halfsplit.marks', 'first-plug mains scope-ground charged-capacitor');
    await visit.open('/trees/psu-5v-low/rail-bare/#supply-kind=iron');
    const field = visit.page.getByLabel('Reading', { exact: true });
    await field.tap();
    await visit.page.getByRole('group', { name: 'Keypad' }).waitFor();
    await field.fill('4.52 mV');
    await visit.page.locator('.verdict .words').waitFor();

    expect(await visit.page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(320);
    expect(await findCut(visit)).toEqual([]);
  });
});

describe('under colours that the reader’s system forces', () => {
  it.each([
    ['home', '/'],
    ['danger gate', '/trees/psu-5v-low/rail-bare/'],
    ['cause', '/trees/psu-5v-low/voltage-lost/#supply-kind=iron'],
    ['circuit', '/circuits/supply-7805/'],
  ])('no violation: %s', async (_name, path) => {
    const visit = await bench.visit({ ...phone, forcedColors: 'active' });
    await visit.open(path);

    expect(await visit.page.evaluate(() => matchMedia('(forced-colors: active)').matches)).toBe(true);
    // The colours are the system’s own: axe takes the ground of a link from our style, where the browser paints another.
    const found = await findViolations(visit.page, { schemes: ['light'] });
    expect(found.filter((violation) => !violation.includes('color-contrast'))).toEqual([]);
  });

  it('what is pressed and where the fault may lie can still be seen', async () => {
    const { page, open, remember } = await bench.visit({ ...phone, forcedColors: 'active' });
    await remember('halfsplit.marks', 'first-plug mains scope-ground charged-capacitor');
    await open('/trees/audio-silent/to-speaker/#to-speaker/wiper=good&to-speaker/amp-in=bad');
    await page.locator('[data-mark][aria-pressed="true"]').first().waitFor();
    const groundOf = (selector: string): Promise<string> =>
      page
        .locator(selector)
        .first()
        .evaluate((button) => getComputedStyle(button).backgroundColor);
    expect(await groundOf('[data-mark][aria-pressed="true"]')).not.toBe(
      await groundOf('[data-mark][aria-pressed="false"]'),
    );
    const rail = await page
      .locator('.stages > .suspect')
      .first()
      .evaluate((stage) => {
        const { borderLeftStyle, borderLeftWidth, borderLeftColor } = getComputedStyle(stage);
        return `${borderLeftWidth} ${borderLeftStyle} ${borderLeftColor}`;
      });
    expect(rail).toMatch(/^3px dashed rgb\(/u);
    expect(await page.locator('.stages > .after').count()).toBeGreaterThan(0);
  });
});

it('no rule of style moves anything, so there is nothing to hold still for those who ask for less motion', () => {
  const rules = readdirSync('dist/_astro')
    .filter((file) => file.endsWith('.css'))
    .map((file) => readFileSync(`dist/_astro/${file}`, 'utf8'))
    .join('');

  expect(rules.length).toBeGreaterThan(10_000);
  expect(rules).not.toMatch(/@keyframes|[{;](?:animation|transition|scroll-behavior)[a-z-]*:/u);
});

// Unicode Standard Annex 9: what is isolated has a direction of its own and leaves that of its surroundings.
describe('words that are written from right to left', () => {
  const said = 'אין תמונה 12 V';

  const directionOf = (visit: Visit, selector: string): Promise<readonly string[]> =>
    visit.page.locator(selector).evaluateAll((parts) =>
      parts.map((part) => {
        const { direction, unicodeBidi } = getComputedStyle(part);
        return `${direction} ${unicodeBidi}`;
      }),
    );

  it('turn the search box while they stand in it', async () => {
    const visit = await bench.visit(desktop);
    await visit.open('/');
    expect((await directionOf(visit, '#search-words'))[0]).toMatch(/^ltr/u);
    await visit.page.locator('#search-words').fill(said);
    expect((await directionOf(visit, '#search-words'))[0]).toMatch(/^rtl/u);
    expect((await directionOf(visit, 'main'))[0]).toMatch(/^ltr/u);
  });

  it('have their own direction in a job’s fields, name and notes, and leave the words around them alone', async () => {
    const visit = await bench.visit(desktop);
    const { page } = visit;
    await visit.open('/log/#new');
    const form = page.locator('[data-form="new"]');
    await form.locator('[name="unit.maker"]').fill(said);
    await form.locator('[name="intake.symptom"]').fill(said);
    expect((await directionOf(visit, '[data-form="new"] [name="unit.maker"]'))[0]).toMatch(/^rtl/u);
    await form.getByRole('button', { name: 'Open the job' }).click();
    await page.locator('[data-job-name]', { hasText: said }).waitFor();
    await page.locator('[data-part="notes"] > summary').click();
    await page.locator('[data-form="note"] textarea').fill(said);
    await page.getByRole('button', { name: 'Add the note' }).click();
    await page.locator('[data-notes] li').waitFor();

    for (const place of ['[data-job-name] bdi', '[data-notes] bdi', '[data-facts] div:first-child bdi'])
      expect(await directionOf(visit, place)).toEqual(['rtl isolate']);
    for (const place of ['[data-job-name]', '[data-notes] li'])
      expect((await directionOf(visit, place))[0]).toMatch(/^ltr/u);
    await page.locator('[data-view="job"] a[href="#jobs"]').click();
    await page.locator('[data-jobs] a').waitFor();
    expect(await directionOf(visit, '[data-jobs] a')).toEqual(['rtl isolate']);
  });
});

describe('what a screen reader hears', () => {
  it('names each field of a cause’s page by its part and its target', async () => {
    const visit = await bench.visit(phone);
    await visit.remember('halfsplit.marks', 'first-plug mains');
    await visit.open('/trees/psu-5v-low/voltage-lost/#supply-kind=iron');
    const names = await visit.page
      .locator('reading-field input')
      .evaluateAll((fields) => fields.map((field) => field.ariaLabel ?? ''));

    expect(names.length).toBeGreaterThan(1);
    expect(new Set(names).size).toBe(names.length);
    for (const name of names) expect(name).toMatch(/^Reading, (?:Make sure|Prove it): ./u);
  });

  it('is not told at every step that the answer is saved', async () => {
    const visit = await bench.visit(phone);
    await visit.open('/trees/psu-5v-low/supply-kind/');
    await visit.page.locator('a.outcome[data-answers="iron"]').tap();
    const line = visit.page.getByText('Saved in your bench log');
    await line.waitFor({ state: 'attached' });

    expect(await line.locator('xpath=ancestor-or-self::*[@role="status" or @aria-live]').count()).toBe(0);
    expect(await visit.page.locator('.job-recorder [role="status"] [data-job-failed]').count()).toBe(1);
  });
});

describe.each(schemes)('in bright sun and in the dark, %s', (colorScheme) => {
  it('targets, readings and verdicts stand out 7 to 1 at least', async () => {
    const visit = await bench.visit({ ...phone, colorScheme });
    await visit.remember('halfsplit.marks', 'first-plug mains scope-ground charged-capacitor');
    await visit.open('/trees/psu-5v-low/rail-bare/#supply-kind=iron');
    await visit.page.getByLabel('Reading', { exact: true }).fill('4.52');
    await visit.page.getByText(/^Low\. 4\.52/u).waitFor();
    const check = await readContrast(
      visit.page.locator('.nominal, .limits, reading-field input, reading-field [role="status"], reading-field button'),
    );
    await visit.open('/trees/audio-silent/to-speaker/');
    const stages = await readContrast(visit.page.locator('.stages .nominal, .stages input, .marks button'));

    expect(check.map(({ text }) => text)).toEqual(expect.arrayContaining(['4.52', expect.stringMatching(/^Low\./u)]));
    expect(check.some(({ text }) => /5\s?V/u.test(text))).toBe(true);
    expect(stages.length).toBeGreaterThan(10);
    expect([...check, ...stages].filter(({ ratio }) => ratio < 7)).toEqual([]);
  });
});

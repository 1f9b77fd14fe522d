import { describe, expect, it } from 'vitest';
import { findViolations, desktop, phone, useBench, type Visit } from './open-browser.ts';

const bench = useBench();

/** Waits until the page has said something that fits `pattern` about the words now typed. */
async function waitForStatus({ page }: Visit, pattern: RegExp): Promise<void> {
  await page.getByRole('search').locator('xpath=..').getByRole('status').filter({ hasText: pattern }).waitFor();
}

describe('search on a phone, by thumb', () => {
  it.each([
    ['fuze blows evry time', 'psu-fuse-blows'],
    ['no pictrue but the keybord beeps', 'video-none'],
    ['flopy disk wont reed', 'floppy-no-read'],
    ['loudspeeker silent', 'audio-silent'],
    ['memmory eror on screen full of rubish', 'dram-garbage'],
    ['four and a half volts on vcc', 'psu-5v-low'],
  ])('"%s", typed letter by letter, lands on %s', async (words, tree) => {
    const visit = await bench.visit(phone);
    await visit.open('/');
    const box = visit.page.getByRole('combobox');
    await box.tap();
    await box.pressSequentially(words);
    const first = visit.page.getByRole('option').first();
    await visit.page.locator(`[role="option"]:first-child[href*="/trees/${tree}/"]`).waitFor();
    // The worker's answer may draw the list once more meanwhile.
    await expect.poll(async () => (await first.boundingBox())?.height).toBeGreaterThanOrEqual(56);
    await first.tap();
    await visit.page.waitForURL(`**/trees/${tree}/**`);
  });

  it('one question separates trees that fit alike; the answer goes along into the tree, and back leads to the results', async () => {
    const visit = await bench.visit(phone);
    await visit.open('/?q=led+on+but+black+screen');
    const { page } = visit;
    await page.getByRole('button', { name: 'Keys respond' }).tap();
    await page.getByRole('button', { name: 'Undo: Keys respond' }).waitFor();
    await page.getByRole('option', { name: /^Machine runs, but no picture/ }).tap();
    await page.waitForURL('**/trees/video-none/#machine-runs=yes');
    await page.goBack();
    await page.getByRole('option').first().waitFor();
    expect(await page.getByRole('combobox').inputValue()).toBe('led on but black screen');
  });

  it('a microwave oven gets a stop card with the caution behind it, and no tree', async () => {
    const visit = await bench.visit(phone);
    await visit.open('/?q=microwave+blows+its+fuse');
    await visit.page.getByRole('heading', { name: 'Stop. Microwave oven' }).waitFor();
    expect(await visit.page.getByRole('option').count()).toBe(0);
    await visit.page.getByRole('link', { name: 'Why, and what to do' }).tap();
    await visit.page.waitForURL('**/cautions/charged-capacitor/');
  });
});

describe('search by keyboard alone', () => {
  it('arrows, Home, End, Enter and Escape do as the combobox pattern says', async () => {
    const visit = await bench.visit(desktop);
    await visit.open('/');
    const { page } = visit;
    const box = page.getByRole('combobox');
    await box.focus();
    await page.keyboard.type('no picture no sound');
    await waitForStatus(visit, /trees/);
    const ids = await page.getByRole('option').evaluateAll((options) => options.map(({ id }) => id));
    const active = (): Promise<string | null> => box.getAttribute('aria-activedescendant');
    expect(ids.length).toBeGreaterThan(1);
    expect(await box.getAttribute('aria-expanded')).toBe('true');
    expect(await active()).toBeNull();

    await page.keyboard.press('ArrowDown');
    expect(await active()).toBe(ids[0]);
    await page.keyboard.press('ArrowUp');
    expect(await active()).toBe(ids.at(-1));
    await page.keyboard.press('Home');
    expect(await active()).toBe(ids[0]);
    await page.keyboard.press('End');
    expect(await active()).toBe(ids.at(-1));
    expect(await page.getByRole('option', { selected: true }).getAttribute('id')).toBe(ids.at(-1));

    await page.keyboard.press('Escape');
    expect(await box.getAttribute('aria-expanded')).toBe('false');
    expect(await box.inputValue()).toBe('no picture no sound');
    await page.keyboard.press('Escape');
    expect(await box.inputValue()).toBe('');

    await page.keyboard.type('no sound');
    await waitForStatus(visit, /tree/);
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    await page.waitForURL('**/trees/audio-silent/**');
  });
});

describe('search for everybody', () => {
  it.each([
    ['results with a question', 'led on but black screen'],
    ['a stop card', 'microwave oven dead'],
    ['nothing that fits', 'qwzx vrrbl'],
    ['a weak fit', 'video and the printer'],
  ])('%s: axe finds no violation of WCAG 2.2 A and AA for “%s”', async (_name, words) => {
    const visit = await bench.visit(phone);
    await visit.open(`/?q=${encodeURIComponent(words)}`);
    await waitForStatus(visit, /./);
    expect(await findViolations(visit.page)).toEqual([]);
  });
});

describe('whatever is typed', () => {
  it.each([
    ['HTML', '<img src=x onerror="document.title=1"><script>document.title=2</script>'],
    ['ten thousand characters', 'no picture '.repeat(910).slice(0, 10_000)],
    ['emoji', '😀🔥💾'],
    ['right to left', '\u202Eאין תמונה במסך'],
    ['nothing but signs', '%%%&&&###"\'`'],
  ])('%s breaks and injects nothing', async (_name, words) => {
    const visit = await bench.visit(desktop);
    await visit.open('/');
    const title = await visit.page.title();
    const box = visit.page.getByRole('combobox');
    await box.fill(words);
    await waitForStatus(visit, /./);
    expect(await visit.page.title()).toBe(title);
    expect(await visit.page.locator('search-box img, search-box script').count()).toBe(0);
    expect(await box.inputValue()).toBe(words);
  });

  it('where nothing fits, the page says so and points to the list of trees', async () => {
    const visit = await bench.visit(desktop);
    await visit.open('/');
    await visit.page.getByRole('combobox').fill('qwzx vrrbl');
    await waitForStatus(visit, /No tree fits these words/);
    await visit.page.getByRole('link', { name: 'See all trees' }).click();
    await visit.page.waitForURL('**/trees/');
  });
});

describe('what it costs', () => {
  it('the index and the search come on the first focus, and never before', async () => {
    const visit = await bench.visit(desktop);
    const asked: string[] = [];
    visit.page.on('request', (request) => asked.push(new URL(request.url()).pathname));
    await visit.open('/');
    await visit.page.waitForLoadState('networkidle');
    const isSearch = (path: string): boolean =>
      path === '/data/search.json' || path.includes('search-engine') || path.includes('search-worker');
    expect(asked.filter(isSearch)).toEqual([]);
    const loaded = visit.page.waitForResponse('**/data/search.json');
    await visit.page.getByRole('combobox').focus();
    await loaded;
  });

  it('without script the form goes home and the page leads to the list of trees', async () => {
    const visit = await bench.visit({ ...desktop, javaScriptEnabled: false });
    await visit.open('/');
    await visit.page.locator('noscript p', { hasText: 'See all trees' }).waitFor();
    await visit.page.getByRole('searchbox').fill('no sound');
    await visit.page.keyboard.press('Enter');
    await visit.page.waitForURL('**/?q=no+sound');
  });
});

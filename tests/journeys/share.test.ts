import jsQR from 'jsqr';
import type { Page } from 'playwright-core';
import { PNG } from 'pngjs';
import { describe, expect, it } from 'vitest';
import { reachByTab } from './hands.ts';
import { findViolations, desktop, phone, useBench, type Visit } from './open-browser.ts';

const bench = useBench();

const clipboard = { permissions: ['clipboard-read', 'clipboard-write'] };
const check = '/trees/psu-5v-low/path-drop/';
const answers = 'unit=quillon-44&supply-kind=iron&rail-bare=4.43V&regulator-out=in';

function panelOf(page: Page) {
  return page.locator('share-panel');
}

async function press(page: Page, name: string): Promise<void> {
  await panelOf(page).getByRole('button', { name, exact: true }).click();
}

async function readClipboard(page: Page): Promise<string> {
  return page.evaluate(() => navigator.clipboard.readText());
}

async function openRead(visit: Visit, path: string): Promise<void> {
  await visit.remember('halfsplit.marks', 'first-plug mains charged-capacitor hot-parts scope-ground');
  await visit.open(path);
}

describe('copying a link', () => {
  it('gives exactly this state, whatever else stood in the address, and opens the same elsewhere', async () => {
    const visit = await bench.visit({ ...desktop, ...clipboard });
    await openRead(visit, `${check}?from=mail#${answers}&no-such-check=1&<b>=2`);
    await press(visit.page, 'Copy a link to exactly this');
    await visit.page.getByText('Link copied.').waitFor();
    const link = await readClipboard(visit.page);

    expect(link).toBe(`${new URL(visit.page.url()).origin}${check}#${answers}`);
    const other = await bench.visit(phone);
    await openRead(other, link);
    await expect.poll(() => other.page.locator('[data-walked] li:not(.hint)').count()).toBe(3);
    expect(await other.page.locator('select[name="unit"]').inputValue()).toBe('quillon-44');
  });

  it('works by keyboard alone, and keeps the answers after the skip link was followed', async () => {
    const visit = await bench.visit({ ...desktop, ...clipboard });
    await openRead(visit, `${check}#${answers}`);
    await visit.page.keyboard.press('Tab');
    await visit.page.keyboard.press('Enter');
    expect(new URL(visit.page.url()).hash).toBe('#sheet');
    await reachByTab(visit.page.getByRole('button', { name: 'Copy a link to exactly this' }));
    await visit.page.keyboard.press('Enter');
    await visit.page.getByText('Link copied.').waitFor();

    expect(new URL(await readClipboard(visit.page)).hash).toBe(`#${answers}`);
  });

  it('shows the link where the browser does not allow copying', async () => {
    const visit = await bench.visit(phone);
    await visit.page.addInitScript(() => {
      Object.defineProperty(navigator, 'clipboard', { value: undefined });
    });
    await openRead(visit, `${check}#${answers}`);
    await press(visit.page, 'Copy a link to exactly this');
    const shown = panelOf(visit.page).getByRole('textbox', { name: 'Text to copy' });
    await shown.waitFor();

    expect(await shown.inputValue()).toContain(`${check}#${answers}`);
  });
});

describe('copying a post', () => {
  it('names the gravest caution first, wherever on the page it stands', async () => {
    const visit = await bench.visit({ ...phone, ...clipboard });
    await openRead(visit, '/trees/cpu-no-activity/other-rails/#rail-cpu=4.93V');
    await press(visit.page, 'Copy as post');
    await visit.page.getByText('Post copied').waitFor();

    const post = await readClipboard(visit.page);
    // The order of ISO 3864-2 and ANSI Z535.4, from memory; what can hurt no person comes by its titles.
    expect(post).toMatch(/\*\*Before you go on:\*\* (?:Danger: [^\n]+ )+Warning: /u);
    expect(post).toMatch(/\nAlso: [^\n]+\. Open the page of a step to read them in full\.\n/u);
  });

  it('tells unit, symptom, readings judged by the board’s limits, what is open, cautions and the link', async () => {
    const visit = await bench.visit({ ...desktop, ...clipboard });
    await openRead(visit, `${check}#${answers}`);
    const panel = panelOf(visit.page);
    await panel.getByText('Format and words of the post').click();
    await panel.getByLabel('Unit').fill('Quillon 44 [b]no. 4[/b]');
    await panel.getByLabel('What it does').fill('dim display');
    await panel.locator('[name="format"]').selectOption('bbcode');
    await press(visit.page, 'Copy as post');
    await visit.page.getByText('Post copied:').waitFor();
    const post = await readClipboard(visit.page);

    expect(post).toContain('[b]5 V rail too low[/b]');
    expect(post).toContain('[b]Unit:[/b] Quillon 44 (b)no. 4(/b)');
    expect(post).toContain('[b]Symptom:[/b] dim display');
    expect(post).toContain('all add-ons off? [b]4.43 V[/b] (healthy: 4.75 to 5.25 V) Low.');
    // One count: what the page says is what the post says.
    const said = await visit.page.locator('[data-likely] .hint').first().textContent();
    const count = /^(\d+) causes are still open\./u.exec(said ?? '')?.[1];
    expect(Number(count)).toBeGreaterThan(1);
    expect(post).toContain(`[b]Still open:[/b] ${count} causes`);
    expect(post).toContain('[b]Question:[/b] What would you check next?');
    expect(post).toContain('[b]Before you go on:[/b] Danger: Power on, case open: clip first, hands out.');
    expect(post).toContain('The whole diagnosis, on Halfsplit:');
    expect(post.trimEnd().endsWith(`${check}#${answers}[/url]`)).toBe(true);
    expect(await panel.getByRole('textbox', { name: 'What was copied' }).inputValue()).toBe(post);

    // The words stay in the tab and out of the link; the format is remembered.
    await press(visit.page, 'Copy a link to exactly this');
    await visit.page.getByText('Link copied.').waitFor();
    expect(await readClipboard(visit.page)).not.toMatch(/Quillon%2044|dim/);
    await visit.open('/trees/psu-5v-low/#supply-kind=iron');
    await panel.getByRole('button', { name: 'Copy as post' }).focus();
    await visit.page.waitForFunction(() => document.querySelector<HTMLInputElement>('[name="unit"]')?.value !== '');
    expect(await panel.locator('[name="format"]').inputValue()).toBe('bbcode');
  });

  it('names the cause on the page of a cause', async () => {
    const visit = await bench.visit({ ...phone, ...clipboard });
    await openRead(visit, '/trees/psu-5v-low/voltage-lost/#supply-kind=iron&rail-bare=low');
    await press(visit.page, 'Copy as post');
    await visit.page.getByText('Post copied:').waitFor();

    expect(await readClipboard(visit.page)).toContain('**Points to:** Voltage lost in a plug, switch or joint');
  });

  it('says so where the data cannot be had, and works when it can be again', async () => {
    const visit = await bench.visit({ ...desktop, ...clipboard }, /Failed to load resource/u);
    await visit.page.route('**/data/walks/*', (route) => route.abort());
    await openRead(visit, `${check}#${answers}`);
    await press(visit.page, 'Copy as post');
    await visit.page.getByText('Something could not be loaded. Your answers are safe; try again.').waitFor();
    await visit.page.unroute('**/data/walks/*');
    await press(visit.page, 'Copy as post');
    await visit.page.getByText('Post copied:').waitFor();

    expect(await readClipboard(visit.page)).toContain('4.43 V');
  });
});

describe('the share sheet of the device', () => {
  it('gets title, words and link', async () => {
    const visit = await bench.visit(phone);
    await visit.page.addInitScript(() => {
      Object.defineProperty(navigator, 'share', {
        value: (data: ShareData) => {
          document.documentElement.dataset['shared'] = JSON.stringify(data);
          return Promise.reject(new DOMException('left', 'AbortError'));
        },
      });
    });
    await openRead(visit, `${check}#${answers}`);
    await press(visit.page, 'Share…');
    await visit.page.waitForFunction(() => document.documentElement.dataset['shared'] !== undefined);
    const shared: unknown = JSON.parse((await visit.page.locator('html').getAttribute('data-shared')) ?? '');

    expect(shared).toMatchObject({ title: '5 V rail too low', url: expect.stringContaining(`${check}#${answers}`) });
    expect(shared).toMatchObject({
      text: expect.stringMatching(/4\.43 V \(healthy: 4\.75 to 5\.25 V\) Low\..*clip first, hands out/s),
    });
    // Leaving the sheet is no fault.
    expect(await panelOf(visit.page).locator('[data-said]').textContent()).toBe('');
  });

  it('is not offered where the browser has none', async () => {
    const visit = await bench.visit(phone);
    await visit.page.addInitScript(() => {
      Object.defineProperty(navigator, 'share', { value: undefined });
    });
    await openRead(visit, check);

    expect(await panelOf(visit.page).getByRole('button', { name: 'Share…' }).isVisible()).toBe(false);
  });
});

describe('the QR code', () => {
  const long = `${answers}&path-drop=0.012V&load-current=in&input-mean=10.42V&input-ac=1.93V&trough=6.91V&ripple-rate=49.8Hz&ripple-size=2.31V&source-volts=short&tab-heat=hot&add-ons=all-together&did=source-low,regulator-weak,feed-joint`;

  it.each([
    ['a phone in the dark', { ...phone, colorScheme: 'dark' } as const],
    ['a desktop', desktop],
  ])('of a long state is read from a picture of the screen: %s', async (_name, screen) => {
    const visit = await bench.visit(screen);
    await openRead(visit, `${check}#${long}`);
    await press(visit.page, 'QR code');
    const picture = PNG.sync.read(await panelOf(visit.page).locator('figure svg').screenshot());
    const read = jsQR(new Uint8ClampedArray(picture.data), picture.width, picture.height);

    expect(long.length).toBeGreaterThan(250);
    expect(read?.data).toBe(`${new URL(visit.page.url()).origin}${check}#${long}`);
  });
});

describe('the share panel', () => {
  it('has no violation that axe can find, with everything open', async () => {
    const visit = await bench.visit({ ...phone, ...clipboard });
    await openRead(visit, `${check}#${answers}&ask=regulator-out,trough`);
    await panelOf(visit.page).getByText('Format and words of the post').click();
    for (const [name, seen] of [
      ['QR code', 'figure svg'],
      ['Ask for checks', 'form'],
      ['Copy as post', 'textarea[readonly]'],
    ] as const) {
      await press(visit.page, name);
      await panelOf(visit.page).locator(seen).waitFor();
      expect(await findViolations(visit.page)).toEqual([]);
    }
  });

  it('is not printed, nor is the list of asked checks', async () => {
    const visit = await bench.visit(desktop);
    await openRead(visit, `${check}#${answers}&ask=trough`);
    await visit.page.locator('asked-checks').waitFor();
    await visit.page.emulateMedia({ media: 'print' });

    expect(await panelOf(visit.page).isVisible()).toBe(false);
    expect(await visit.page.locator('asked-checks').isVisible()).toBe(false);
  });

  it('fits the screen of a phone sideways', async () => {
    const visit = await bench.visit(phone);
    await openRead(visit, `${check}#${answers}`);
    await press(visit.page, 'Ask for checks');
    await panelOf(visit.page).locator('form').waitFor();
    await press(visit.page, 'QR code');

    expect(await visit.page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
  });
});

import { describe, expect, it } from 'vitest';
import { desktop, phone, useBench } from './open-browser.ts';

const bench = useBench();

describe('from what is seen to its check', () => {
  it('leads by touch: home, the page of pictures, one kind of them, the check', async () => {
    const { page, open } = await bench.visit(phone);
    await open('/');
    await page.getByRole('main').getByRole('link', { name: 'what you see' }).tap();
    await page.waitForURL('**/pictures/');
    await page.getByRole('link', { name: 'Supply rails' }).tap();
    await page.getByRole('link', { name: /^Every second wave missing 2 V\/div, 5 ms\/div, dc\./u }).tap();

    await page.waitForURL('**/trees/psu-ripple/ripple-rate/');
  });

  it('leads by keyboard alone', async () => {
    const { page, open } = await bench.visit(desktop);
    await open('/pictures/');
    await page.getByRole('link', { name: 'The lamps of the probe' }).focus();
    await page.keyboard.press('Enter');
    await page.waitForURL('**/pictures/#probe');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');

    await page.waitForURL('**/trees/**');
  });

  it('reads without script, each picture with its words and a way on, and no wider than a phone', async () => {
    const { page, open } = await bench.visit({ ...phone, javaScriptEnabled: false });
    await open('/pictures/');
    const cards = page.locator('a.outcome[href*="/trees/"]');

    expect(await cards.count()).toBeGreaterThanOrEqual(40);
    expect(await page.locator('a.outcome:not(:has(svg))').count()).toBe(0);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(390);
  });
});

describe('a check whose answers look different', () => {
  it('shows them on its buttons, and the settings of the scope beside the instrument', async () => {
    const { page, open, remember } = await bench.visit(phone);
    await remember('halfsplit.marks', 'first-plug mains static charged-capacitor hot-parts slip scope-ground');
    await remember('halfsplit.mains', 'outside tree:psu-ripple');
    await open('/trees/psu-ripple/ripple-rate/');
    const half = page.locator('a.outcome[data-answers="low"]');

    await half.locator('svg').waitFor();
    expect(await page.locator('a.outcome:has(svg)').count()).toBe(2);
    expect(await half.locator('svg').getAttribute('aria-hidden')).toBe('true');
    expect(await page.locator('.title-block').textContent()).toContain('2 V/div, 5 ms/div, dc');
    await half.tap();
    await page.waitForURL((url) => url.hash.includes('ripple-rate=low'));
  });
});

import { describe, expect, it } from 'vitest';
import { desktop, useBench } from './open-browser.ts';

const bench = useBench();

describe('a check on paper', () => {
  it.each([
    ['before its stop caution was read', ''],
    ['after its stop caution was read', 'mains'],
  ])('carries the cautions in full, then the instruction, the target and the outcomes: %s', async (_name, read) => {
    const { page, open, remember } = await bench.visit(desktop);
    await remember('halfsplit.marks', read);
    await open('/trees/psu-5v-low/regulator-out/');
    await page.emulateMedia({ media: 'print' });

    for (const slug of ['mains', 'charged-capacitor', 'hot-parts']) {
      expect(await page.locator(`[data-caution="${slug}"] .text`).isVisible(), slug).toBe(true);
    }
    expect(await page.locator('.prose').getByText('clip from input leg to ground leg').isVisible()).toBe(true);
    expect(await page.locator('.target .nominal').isVisible()).toBe(true);
    expect(await page.locator('a.outcome').first().isVisible()).toBe(true);
    expect(await page.locator('.bar').isVisible()).toBe(false);
    const caution = await page.locator('[data-caution="mains"]').boundingBox();
    const heading = await page.locator('h1').boundingBox();
    expect(caution?.y ?? 1e6).toBeLessThan(heading?.y ?? 0);
  });
});

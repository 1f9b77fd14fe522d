import { describe, expect, it } from 'vitest';
import { findViolations, phone, useBench } from './open-browser.ts';

const bench = useBench();

describe('a target computed for values of one’s own', () => {
  it('shows the worked example, then the reader’s own result with its worst case', async () => {
    const { page, open } = await bench.visit(phone);
    await open('/targets/load-current/');
    const output = page.locator('output');
    // By hand: 45 mV over 0.1 Ω are 450 mA, over 0.105 and 0.095 Ω 429 and 474 mA; 60 mV over 0.22 Ω exactly are 273 mA.
    expect(await output.textContent()).toBe('current: 450\u00a0mA, with these tolerances 429\u00a0mA to 474\u00a0mA');
    await page.getByLabel('Drop over the part').fill('60');
    await page.getByLabel('Its resistance', { exact: true }).fill('0R22');
    await page.getByLabel('Tolerance of it, per cent: its resistance').fill('0');
    await page.getByText('current: 273\u00a0mA', { exact: true }).waitFor();
    await page.getByLabel('Its resistance', { exact: true }).fill('<b>');
    await page.getByText('Type every figure').waitFor();
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
    expect(await findViolations(page, { more: ['best-practice'] })).toEqual([]);
  });
});

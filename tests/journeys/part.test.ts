import { describe, expect, it } from 'vitest';
import { findViolations, phone, useBench } from './open-browser.ts';

const bench = useBench();

describe('reading a marking, and whether another part will do', () => {
  it('reads as worked examples without script, with every line that must match', async () => {
    const { page, open } = await bench.visit({ ...phone, javaScriptEnabled: false });
    await open('/guide/part/');
    await page.getByText('Capacitor, 100\u00a0nF ±10\u00a0%').waitFor();
    await page.getByText('Resistor, 4.7\u00a0kΩ ±5\u00a0%').waitFor();
    await page.locator('#reservoir summary').click();
    await page.getByText('In all it fits.').waitFor();
    expect(await page.locator('input:visible, select:visible').count()).toBe(0);
  });

  it('reads what is typed and chosen, by keys alone', async () => {
    const { page, open } = await bench.visit(phone);
    await open('/guide/part/');
    await page.getByLabel('Marking').focus();
    await page.keyboard.type('104');
    // 10 and four zeros: 100 000 pF or ohms.
    await page.getByText('Capacitor, 100\u00a0nF.').waitFor();
    await page.getByText('Resistor, 100\u00a0kΩ.').waitFor();
    await page.getByLabel('Marking').fill('<b>');
    await page.getByText('“<b>” is none of these markings.').waitFor();

    await page.keyboard.press('Tab');
    for (const key of ['6', 'red', 'violet', 'bla', 'brown', 'brown', 'red']) {
      await page.keyboard.type(key);
      await page.keyboard.press('Tab');
    }
    // 270 × 10 ohms, 1 %, 50 ppm by hand.
    await page.getByText('Resistor, 2.7\u00a0kΩ ±1\u00a0%').waitFor();
    await page.getByText('50 ppm a degree').waitFor();
  });

  it('comes from a cause to the part’s own lines, and calls nothing fit before all of them are known', async () => {
    const { page, open, remember } = await bench.visit(phone);
    await remember('halfsplit.marks', 'first-plug mains scope-ground charged-capacitor');
    await open('/trees/psu-ripple/all/');
    expect(await page.getByText('Will another part do?').count()).toBe(0);
    await open('/trees/psu-ripple/reservoir-dry/#nonsense=1');
    await page.getByRole('link', { name: 'Will another part do?' }).click();
    await page.waitForURL('**/guide/part/#reservoir');
    const whole = page.locator('have-part[data-kind="reservoir"] [data-whole]');
    const fill = async (line: string, fitted: string, hand: string): Promise<void> => {
      await page.locator('#reservoir').getByLabel(`Was fitted: ${line}`).fill(fitted);
      await page.locator('#reservoir').getByLabel(`At hand: ${line}`).fill(hand);
    };
    await fill('Capacitance', '4700', '6800');
    await fill('Voltage', '25', '16');
    await page.getByText('16\u00a0V instead of 25\u00a0V is too little.').waitFor();
    expect(await whole.textContent()).toBe('In all: does not fit. Lines not known yet: 4.');
    await fill('Voltage', '25', '35');
    expect(await whole.textContent()).toBe('In all: not known yet. Lines not known yet: 4.');
    await fill('Ripple current', '2.1', '2.6');
    for (const [label, choice] of [
      ['Was fitted: Class', '85 °C'],
      ['At hand: Class', '105 °C'],
      ['Was fitted: Made as', 'aluminium'],
      ['At hand: Made as', 'aluminium'],
      ['Compared: Size and legs', 'the same'],
    ] as const)
      await page.locator('#reservoir').getByLabel(label).selectOption(choice);
    expect(await whole.textContent()).toBe('In all: fits.');
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
    expect(await findViolations(page, { more: ['best-practice'] })).toEqual([]);
  });
});

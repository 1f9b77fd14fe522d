import { describe, expect, it } from 'vitest';
import { phone, useBench } from './open-browser.ts';

const bench = useBench();

describe('a board chosen once', () => {
  it('puts its own test point and limits into a check, travels in the address, and is taken away again', async () => {
    const { page, open, remember } = await bench.visit(phone);
    await remember('halfsplit.marks', 'first-plug mains scope-ground');
    await open('/trees/psu-5v-low/trough/');
    const told = page.locator('.target :is([data-place], .nominal, [data-limits])');
    const general = await told.allTextContents();
    await page.getByLabel('Which unit is on your bench?').selectOption('quillon-44');

    // Written by hand from content/units/quillon-44.mdx.
    const card = page.locator('.target');
    await card.getByText('IC3, left leg; joined to the plus of C3.').waitFor();
    expect(await card.locator('.nominal').textContent()).toContain('9.4');
    expect(await card.locator('[data-limits]').textContent()).toMatch(/\b7(\.0)?\b.*\b20\b.*V/u);
    expect(new URL(page.url()).hash).toBe('#unit=quillon-44');

    await page.locator('a.outcome').first().tap();
    // The engine asks first whether the rail is low at all.
    await page.waitForURL('**/rail-bare/#*');
    expect(new URL(page.url()).hash).toBe('#unit=quillon-44&trough=low');
    await page.goBack();
    await page.getByLabel('Which unit is on your bench?').selectOption('');
    await expect.poll(() => told.allTextContents()).toEqual(general);

    expect(new URL(page.url()).hash).toBe('');
  });

  it('puts them into the stages of a signal path as well', async () => {
    const { page, open, remember } = await bench.visit(phone);
    await remember('halfsplit.marks', 'first-plug mains charged-capacitor scope-ground hot-parts static');
    await remember('halfsplit.mains', 'outside tree:audio-silent');
    await open('/trees/audio-silent/to-speaker/');
    const stage = page.locator('li[data-stage="wiper"]');
    const general = await stage.textContent();
    await page.getByLabel('Which unit is on your bench?').selectOption('quillon-44');

    // Written by hand from content/units/quillon-44.mdx: its tone at the volume control is 200 mVpp at least.
    await stage.getByText('On the Quillon 44 two-voice synthesizer: VR1, middle leg.').waitFor();
    expect(await stage.locator('.nominal').textContent()).toMatch(/\b200\b/u);
    await page.getByLabel('Which unit is on your bench?').selectOption('');
    await expect.poll(() => stage.textContent()).toBe(general);
  });

  it('with bare mains inside still stops a reader who said before that the mains is outside', async () => {
    const { page, open, remember } = await bench.visit(phone);
    await remember('halfsplit.mains', 'outside tree:psu-5v-low');
    await open('/trees/psu-5v-low/rail-bare/');
    await page.getByRole('heading', { level: 1 }).waitFor();
    await page.getByLabel('Which unit is on your bench?').selectOption('quillon-44');

    await page.getByRole('region', { name: /^Danger: Mains/u }).waitFor();
    expect(await page.locator('#step').isVisible()).toBe(false);
  });

  it('with a transformer shows no caution about switch-mode supplies, and its kind beside the answer', async () => {
    const { page, open, remember } = await bench.visit(phone);
    await remember('halfsplit.marks', 'first-plug mains charged-capacitor');
    await open('/trees/psu-dead-linear/supply-kind/');
    const said = page.getByRole('link', { name: /The file of this unit says so/u });
    expect(await said.count()).toBe(0);
    await page.getByLabel('Which unit is on your bench?').selectOption('tarn-8');
    await said.waitFor();
    // content/units/tarn-8.mdx: a brick gives 9 V ac.
    expect(await said.textContent()).toContain('A separate brick, heavy for its size');

    const about = page.locator('[data-caution="switch-mode-primary"]');
    await open('/trees/neg-rail-missing/look/');
    expect(await about.isVisible()).toBe(true);
    await open('/trees/neg-rail-missing/look/#unit=quillon-44');
    await expect.poll(() => about.isVisible()).toBe(false);
    // Who finds a switch-mode supply all the same is warned of it, and so is who owns a cabinet with a picture tube.
    for (const address of ['/trees/neg-rail-missing/supply-closed/', '/trees/psu-smps-dead/box/']) {
      await open(`${address}#unit=quillon-44`);
      expect(await about.isVisible()).toBe(true);
      // Nothing that a unit's sheet could hide later.
      expect(await about.and(page.locator('[data-spared]')).count()).toBe(0);
    }
    await open('/trees/neg-rail-missing/look/#unit=bracken');
    await page.getByText('C4, a bead beside D2').waitFor({ state: 'attached' });
    expect(await about.isVisible()).toBe(true);
  });

  it('says what differs on that unit in this tree', async () => {
    const { page, open, remember } = await bench.visit(phone);
    await remember('halfsplit.marks', 'first-plug mains');
    await open('/trees/psu-dead-linear/#unit=quillon-44');
    const start = await page.locator('[data-start]').getAttribute('href');
    await open(`${start?.split('#')[0] ?? ''}#unit=quillon-44`);

    await page.getByText('The mains switch is behind the panel with bare tags beside T1').waitFor();
  });

  it('that is not known is told, and the general points stay', async () => {
    const { page, open } = await bench.visit(phone);
    await open('/trees/psu-5v-low/supply-kind/#unit=no-such-unit');

    expect(await page.getByRole('status').first().textContent()).toContain('unit=no-such-unit');
  });
});

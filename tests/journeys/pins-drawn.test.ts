import { describe, expect, it } from 'vitest';
import { phone, useBench } from './open-browser.ts';
import { readStore } from './read-store.ts';

const bench = useBench();

const cautions = 'first-plug mains static charged-capacitor hot-parts slip scope-ground';

describe('the pins of a unit', () => {
  it('are asked for once by keyboard, drawn at the next check too, and kept with the job', async () => {
    const { page, open, remember } = await bench.visit(phone);
    await remember('halfsplit.marks', cautions);
    await remember('halfsplit.mains', 'outside tree:cpu-no-activity');
    await open('/trees/cpu-no-activity/rail-cpu/');
    const figure = page.locator('.step > figure.pins');
    await figure.locator('[data-choose]').focus();
    await page.keyboard.press('Enter');
    await figure.getByLabel('Number').waitFor();
    await page.keyboard.type('z80');
    await figure.getByRole('button', { name: /^Z80 processor/u }).focus();
    await page.keyboard.press('Enter');

    // A Z80 has +5 V on pin 11 and ground on pin 29: the maker’s sheet, and the open symbol set.
    await figure.getByRole('img', { name: /Red lead: pin 11, \+5 V\. Black lead: pin 29, ground\./u }).waitFor();
    await page.locator('a.outcome[data-answers="in"]').click();
    await page.waitForURL((url) => url.hash.includes('rail-cpu=in'));
    await expect
      // The log is fetched with the first answer; a machine that does much else takes its time.
      .poll(async () => (await readStore(page)).find(({ kind }) => kind === 'chip'), { timeout: 8000 })
      .toMatchObject({
        chip: 'processor',
        part: 'z80',
      });
    await open('/trees/cpu-no-activity/clock-pin/');
    await page.getByRole('img', { name: /Tip: pin 6, clock in\./u }).waitFor();

    // Naming a chip says nothing of the mains: what the job knows of it stands, whatever this tab has forgotten.
    await page.getByRole('button', { name: 'Another part' }).click();
    await page.getByRole('button', { name: /^6502 processor/u }).click();
    const kept = async (kind: string): Promise<number> =>
      (await readStore(page)).filter((event) => event.kind === kind).length;
    await expect.poll(() => kept('chip'), { timeout: 8000 }).toBe(2);
    expect((await readStore(page)).filter((event) => event.kind === 'intake' && 'mains' in event)).toMatchObject([
      { mains: 'outside' },
    ]);
  });

  it('come from the file of a unit, without a question', async () => {
    const { page, open, remember } = await bench.visit(phone);
    await remember('halfsplit.marks', cautions);
    await open('/trees/dram-garbage/vbb/#unit=bracken');

    // A 4116 has −5 V on pin 1 and ground on pin 16.
    await page
      .getByRole('img', { name: /Red lead: pin 1, −5 V\. Black lead: pin 16, ground\./u })
      .waitFor({ state: 'attached' });
    expect(await page.locator('[data-choose]').count()).toBe(0);
  });

  it('are turned over for the solder side, and can be given up on with what to do', async () => {
    const { page, open, remember } = await bench.visit(phone);
    await remember('halfsplit.marks', cautions);
    await remember('halfsplit.mains', 'outside tree:cpu-no-activity');
    await open('/trees/cpu-no-activity/rail-cpu/');
    const figure = page.locator('.step > figure.pins');
    await figure.locator('[data-choose]').tap();
    await figure.getByRole('button', { name: 'I cannot read its number' }).tap();
    await figure.getByText('clip nothing that you guessed').waitFor();
    await figure.getByRole('button', { name: 'Choose the chip' }).tap();
    await figure.getByRole('button', { name: /^6510/u }).tap();
    await figure.getByRole('button', { name: 'From the solder side' }).tap();

    await figure.getByText('From the solder side, mirrored.').waitFor();
  });
});

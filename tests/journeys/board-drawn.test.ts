import { readFileSync } from 'node:fs';
import type { Locator, Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { desktop, findViolations, phone, useBench, type Visit } from './open-browser.ts';
import { readStore } from './read-store.ts';

const bench = useBench();

const cautions =
  'first-plug mains static charged-capacitor hot-parts slip scope-ground overvoltage first-soak hot-plugging';

/** Unfolds the drawing of the open job's board. */
async function openBoard(page: Page): Promise<Locator> {
  await page.locator('details[data-part="board"] > summary').click();
  const part = page.locator('[data-board]');
  await part.locator('svg.part').waitFor();
  return part;
}

async function openJob(page: Page): Promise<Locator> {
  await page.goto('/log/');
  await page.locator('[data-jobs] a').first().click();
  await page.locator('[data-view="job"] h1').waitFor();
  return openBoard(page);
}

/** Touches the board, 200 by 150 mm and drawn 340 units wide: 1.7 units a millimetre, below 16 units for the words of its edge. */
async function touch(part: Locator, x: number, y: number): Promise<void> {
  const svg = part.locator('svg.part');
  const scale = ((await svg.boundingBox())?.width ?? 0) / 340;
  await svg.click({ position: { x: x * 1.7 * scale, y: (16 + y * 1.7) * scale } });
}

/** The parts of the drawing that is not saved yet. */
async function readDraft(page: Page): Promise<readonly { readonly x: number; readonly y: number }[] | undefined> {
  const kept = await page.evaluate(
    () => Object.entries(localStorage).find(([key]) => key.startsWith('halfsplit.board-draft.'))?.[1],
  );
  return JSON.parse(kept ?? '{}').boards?.[0]?.parts;
}

/** A job with one answer in the tree of the low rail, open in this tab. */
async function beginJob(page: Page): Promise<void> {
  await page.getByRole('link', { name: 'A heavy transformer inside the case' }).click();
  await page.waitForURL('**/rail-bare/#*');
  await page.getByText('Saved in your bench log').waitFor();
}

/** A visit with a job just begun, and the drawing of its board unfolded. */
async function beginBoard(
  device: typeof phone | typeof desktop,
): Promise<Pick<Visit, 'page' | 'open'> & { readonly part: Locator }> {
  const { page, open, remember } = await bench.visit(device);
  await remember('halfsplit.marks', cautions);
  await open('/trees/psu-5v-low/supply-kind/');
  await beginJob(page);
  return { page, open, part: await openJob(page) };
}

describe('the boards of a shipped unit', () => {
  it('show a check its point under a flag, from either side, and go with the unit', async () => {
    const { page, open, remember } = await bench.visit(phone);
    await remember('halfsplit.marks', cautions);
    await open('/trees/psu-5v-low/rail-bare/');
    await page.getByLabel('Which unit is on your bench?').selectOption('tarn-8');

    // Written by hand from content/units/tarn-8.mdx: “IC26 … at the corner farthest from the power socket: supply pin 16, ground pin 8”.
    const drawn = page.locator('[data-placed] > svg');
    await page.getByRole('img', { name: /^Computer, main board\. .*Lit: IC26, pins 16 and 8, front right/u }).waitFor();
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(390);
    await page.getByText('IC26, pins 16 and 8.', { exact: true }).waitFor();
    await page.locator('[data-placed]').getByRole('button', { name: 'From the solder side' }).tap();
    await page.getByRole('img', { name: /mirrored; up: rear\. Lit: IC26, pins 16 and 8, front left/u }).waitFor();
    expect(await findViolations(page)).toEqual([]);
    await page.getByLabel('Which unit is on your bench?').selectOption('');
    await drawn.waitFor({ state: 'detached' });
  });

  it('tell the boxes of a unit apart', async () => {
    const { page, open, remember } = await bench.visit(phone);
    await remember('halfsplit.marks', cautions);
    // Its file: “Disk unit: the plug on the drive”.
    await open('/trees/floppy-no-spin/five-at-plug/#unit=tarn-8');

    await page.getByRole('img', { name: /^Disk unit, board of the drive\./u }).waitFor({ state: 'attached' });
  });

  it('light the stages of a path in one drawing, each under the flag with its number', async () => {
    const { page, open, remember } = await bench.visit(desktop);
    await remember('halfsplit.marks', cautions);
    await remember('halfsplit.mains', 'outside tree:audio-silent');
    await open('/trees/audio-silent/to-speaker/#unit=quillon-44');

    // IC21 pin 3 is the input of the amplifier and pin 5 its output; the stages are counted on the page.
    await page.getByRole('img', { name: /Flag 2: IC21, pin 3.*Flag 3: IC21, pin 5/u }).waitFor();
    expect(await page.locator('[data-placed]').count()).toBe(1);
  });

  it('stand on the page of the unit from both sides, and in words', async () => {
    const { page, open } = await bench.visit(phone);
    await open('/units/tarn-8/');

    expect(await page.getByRole('img', { name: /^Computer, main board\. From the/u }).count()).toBe(2);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(390);
    await page.getByText('Its parts in words').first().tap();
    await page.getByText(/Front right: .*IC26 \(74LS157\)/u).waitFor();
    expect(await findViolations(page)).toEqual([]);
  });
});

describe('a board drawn by its reader', () => {
  it('is drawn by touch, shows at the checks of its job, survives a reload, and goes along in the file', async () => {
    const { page, open, part } = await beginBoard(phone);
    await touch(part, 40, 30);
    await part.getByText('Nothing at 40, 30 mm, rear left.').waitFor();
    await part.getByRole('spinbutton', { name: 'Pins' }).fill('16');
    await part.getByRole('textbox', { name: 'Name' }).fill('IC5');
    await part.getByRole('button', { name: 'Add the part at the mark' }).tap();
    await part.getByRole('combobox', { name: 'Test point' }).selectOption('chip-supply');
    await part.getByLabel('Pin or leg').fill('17');
    await part.getByRole('button', { name: 'Put the point on IC5' }).tap();
    await part.getByText('IC5 has 16 legs.').waitFor();
    await part.getByLabel('Pin or leg').fill('16');
    await part.getByRole('button', { name: 'Put the point on IC5' }).tap();
    await part.getByText('Supply pin of the chip: IC5, 16').waitFor();
    expect(await findViolations(page)).toEqual([]);

    // What is not saved yet is there again after a reload.
    await page.reload();
    await openBoard(page);
    await part.getByText('This drawing was not saved yet.').waitFor();
    await part.getByRole('button', { name: 'Save the drawing' }).tap();
    await part.getByText('Saved. The checks of this job show it.').waitFor();
    expect((await readStore(page)).filter(({ kind }) => kind === 'placement')).toMatchObject([
      {
        placement: {
          boards: [
            { width: 200, height: 150, parts: [{ name: 'IC5', kind: 'chip', size: [16], x: 40, y: 30, turn: 0 }] },
          ],
          points: { 'chip-supply': [{ part: 'IC5', pins: [16] }] },
        },
      },
    ]);

    await open('/trees/psu-5v-low/rail-bare/');
    await page.getByRole('img', { name: /Lit: IC5, pin 16, rear left/u }).waitFor({ state: 'attached' });

    await openJob(page);
    const coming = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Save the job as a file' }).locator('visible=true').tap();
    const file = readFileSync(await (await coming).path());
    const other = await bench.visit(phone);
    await other.open('/log/');
    await other.page
      .locator('input[name="import"]')
      .setInputFiles({ name: 'job.json', mimeType: 'application/json', buffer: file });
    await other.page.locator('[data-jobs] li').first().waitFor();
    const there = await openJob(other.page);
    await there.getByText('Supply pin of the chip: IC5, 16').waitFor();
  });

  it('has its parts dragged by a mouse at once, by a finger once they are taken, each drag one step of Undo', async () => {
    const { page, part } = await beginBoard(phone);
    await touch(part, 40, 30);
    await part.getByRole('button', { name: 'Add the part at the mark' }).tap();
    const place = async (x: number, y: number): Promise<{ readonly x: number; readonly y: number }> => {
      const box = await part.locator('svg.part').boundingBox();
      const scale = (box?.width ?? 0) / 340;
      return { x: (box?.x ?? 0) + x * 1.7 * scale, y: (box?.y ?? 0) + (16 + y * 1.7) * scale };
    };
    const drawnAt = async (): Promise<unknown> => {
      const { x, y } = (await readDraft(page))?.[0] ?? {};
      return [x, y];
    };
    await part.locator('svg.part').scrollIntoViewIfNeeded();

    // Taken 5 mm right of its middle, let go 60 mm further right and 40 mm down: its middle goes as far.
    const [from, to] = [await place(45, 30), await place(105, 70)];
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    await page.mouse.move(to.x, to.y, { steps: 5 });
    await page.mouse.up();
    await expect.poll(drawnAt, { timeout: 20_000 }).toEqual([100, 70]);
    expect(await part.getByLabel('Name').inputValue()).toBe('IC1');

    // A finger, on the part that is taken.
    const session = await page.context().newCDPSession(page);
    const finger = async (type: string, points: readonly object[]): Promise<unknown> =>
      session.send('Input.dispatchTouchEvent', { type, touchPoints: points } as never);
    const [down, up] = [await place(100, 70), await place(150, 70)];
    await finger('touchStart', [down]);
    await finger('touchMove', [up]);
    await finger('touchEnd', []);
    await expect.poll(drawnAt, { timeout: 20_000 }).toEqual([150, 70]);
    await part.getByRole('button', { name: 'Undo' }).click();
    await expect.poll(drawnAt, { timeout: 20_000 }).toEqual([100, 70]);
    await part.getByRole('button', { name: 'Undo' }).click();
    await expect.poll(drawnAt, { timeout: 20_000 }).toEqual([40, 30]);

    // Not taken any more: a finger scrolls, and moves nothing.
    const [still, away] = [await place(40, 30), await place(40, 100)];
    await finger('touchStart', [still]);
    await finger('touchMove', [away]);
    await finger('touchEnd', []);
    expect(await drawnAt()).toEqual([40, 30]);
  });

  it('is drawn by keyboard: moved, turned, named anew, deleted, and every step undone', async () => {
    const { page, part } = await beginBoard(desktop);
    const board = part.getByRole('group', { name: /^The board\./u });
    const press = async (name: string): Promise<void> => {
      await part.getByRole('button', { name }).focus();
      await page.keyboard.press('Enter');
    };
    const at = async (): Promise<unknown> => readDraft(page);
    // From the middle, 100 and 75 mm, two steps of 5 mm to the right and one of 1 mm down.
    await board.focus();
    for (const key of ['ArrowRight', 'ArrowRight', 'Shift+ArrowDown']) await page.keyboard.press(key);
    await press('Add the part at the mark');
    const made = { name: 'IC1', kind: 'chip', size: [14], x: 110, y: 76, turn: 0 };
    expect(await at()).toEqual([made]);
    await press('Turn it');
    expect(await at()).toEqual([{ ...made, turn: 90 }]);
    await press('Move it');
    await board.focus();
    await page.keyboard.press('ArrowLeft');
    expect(await at()).toEqual([{ ...made, turn: 90, x: 105 }]);
    await part.getByLabel('Name').fill('IC9');
    await page.keyboard.press('Tab');
    expect(await at()).toEqual([{ ...made, turn: 90, x: 105, name: 'IC9' }]);
    await press('Delete it');
    expect(await at()).toEqual([]);
    for (const before of [{ name: 'IC9', turn: 90, x: 105 }, { turn: 90, x: 105 }, { turn: 90 }, {}]) {
      await press('Undo');
      expect(await at()).toEqual([{ ...made, ...before }]);
    }
    await press('Undo');
    expect(await at()).toEqual([]);
    await part.getByLabel('Board, width in mm').fill('4');
    await page.keyboard.press('Tab');
    await part.getByText('That cannot be drawn: expected millimetres, at least 10.').waitFor();
  });
});

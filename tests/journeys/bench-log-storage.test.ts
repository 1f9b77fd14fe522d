import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, type Page } from 'playwright-core';
import { beforeAll, describe, expect, inject, it } from 'vitest';
import { passGates } from './hands.ts';
import { chromiumArguments, findChromium } from '../find-chromium.ts';
import { damagedFiles } from '../core/log/damaged-files.ts';
import { phone, useBench, type Visit } from './open-browser.ts';
import { readStore } from './read-store.ts';

const bench = useBench();

const read = 'first-plug mains scope-ground charged-capacitor hot-parts overvoltage';

async function walkOne(page: Page): Promise<void> {
  await page.getByRole('link', { name: 'A heavy transformer inside the case' }).tap();
  await page.waitForURL('**/rail-bare/#*');
}

/** Everything the browser holds of the log, as text. */
async function dumpLog(page: Page): Promise<string> {
  return page.evaluate(async () => {
    if ((await indexedDB.databases()).length === 0) return 'nothing';
    const database = await new Promise<IDBDatabase>((resolve, reject) => {
      const opening = indexedDB.open('halfsplit-log');
      opening.onerror = () => reject(new Error('not opened'));
      opening.onsuccess = () => resolve(opening.result);
    });
    const all = (name: string): Promise<unknown> =>
      new Promise((resolve) => {
        const request = database.transaction(name).objectStore(name).getAll();
        request.onsuccess = () => resolve(request.result);
      });
    const text = JSON.stringify([await all('events'), await all('photos'), Object.entries(localStorage)]);
    database.close();
    return text;
  });
}

/** Runs in the page: how many rows the store of events has. */
async function countRows(): Promise<number> {
  return new Promise((resolve) => {
    const opening = indexedDB.open('halfsplit-log');
    opening.onsuccess = () => {
      const request = opening.result.transaction('events').objectStore('events').count();
      request.onsuccess = () => {
        opening.result.close();
        resolve(request.result);
      };
    };
  });
}

/** Runs in the page: writes every row of many events a second time, under another id. */
async function doubleRows(): Promise<void> {
  return new Promise((resolve) => {
    const opening = indexedDB.open('halfsplit-log');
    opening.onsuccess = () => {
      const transaction = opening.result.transaction('events', 'readwrite');
      const store = transaction.objectStore('events');
      const request = store.getAll();
      request.onsuccess = () => {
        for (const row of request.result) if ('batch' in row) store.add({ ...row, id: `${row.id}x` });
      };
      transaction.oncomplete = () => {
        opening.result.close();
        resolve();
      };
    };
  });
}

async function saveJob(page: Page, button: string): Promise<{ readonly events: readonly { readonly kind: string }[] }> {
  const coming = page.waitForEvent('download');
  await page.getByRole('button', { name: button }).locator('visible=true').tap();
  return JSON.parse(readFileSync(await (await coming).path(), 'utf8'));
}

describe('storage that the browser refuses', () => {
  it('altogether, as a private window may: the page works, says so and offers the file', async () => {
    const { page, open, remember } = await bench.visit(phone);
    await remember('halfsplit.marks', read);
    await page.addInitScript(() => {
      const refuse = (): never => {
        throw new DOMException('denied', 'SecurityError');
      };
      Object.defineProperty(IDBFactory.prototype, 'open', { value: refuse });
    });
    await open('/trees/psu-5v-low/supply-kind/');
    await walkOne(page);
    await page.getByText('This browser keeps nothing').waitFor();
    const file = await saveJob(page, 'Save the job as a file');
    expect(file.events.map(({ kind }) => kind).sort()).toEqual(['answer', 'intake', 'opened']);

    // The tab still has it on the next sheet, and on the page of the log.
    await page.locator('a.outcome[data-answers="low"]').tap();
    await page.waitForURL('**/regulator-out/#*');
    await page.getByText('This browser keeps nothing').waitFor();
    await page.goto('/log/');
    await page.getByText('This browser keeps nothing').waitFor();
    await page.locator('[data-jobs] a').first().tap();
    await expect.poll(() => page.locator('[data-readings] li').count()).toBe(2);
  });

  it('even that of the tab: the sheet works, says so, and the file holds what the address holds', async () => {
    const { page, open } = await bench.visit(phone);
    await page.addInitScript(() => {
      for (const name of ['localStorage', 'sessionStorage', 'indexedDB']) {
        Object.defineProperty(window, name, {
          get: () => {
            throw new DOMException('denied', 'SecurityError');
          },
        });
      }
    });
    await open('/trees/psu-5v-low/supply-kind/');
    await walkOne(page);
    await page.getByText('This browser keeps nothing').waitFor({ state: 'attached' });
    await page.goto('/trees/psu-5v-low/brick-wrong/#supply-kind=brick&brick-label=wrong');
    await page.locator('.gate-now').waitFor();
    await passGates(page);
    await page.getByRole('button', { name: 'I have done this repair' }).tap();
    await page.getByText('This browser keeps nothing').waitFor();
    const file = await saveJob(page, 'Save the job as a file');
    expect(file.events.map(({ kind }) => kind).sort()).toEqual(['answer', 'answer', 'opened', 'repair']);
  });
});

describe('storage that the person switched off in the browser’s own settings', () => {
  it('is told on the first sheet after an answer and after a repair, with the file', async () => {
    const profile = mkdtempSync(join(tmpdir(), 'halfsplit-profile-'));
    mkdirSync(join(profile, 'Default'));
    // 2: block. The key under which Chromium keeps the choice for cookies and all other storage.
    const preferences = { profile: { default_content_setting_values: { cookies: 2 } } };
    writeFileSync(join(profile, 'Default', 'Preferences'), JSON.stringify(preferences));
    const context = await chromium.launchPersistentContext(profile, {
      executablePath: findChromium({ isWhole: true }),
      args: [...chromiumArguments, '--headless=new'],
      baseURL: inject('siteAddress'),
    });
    const page = await context.newPage();
    const errors: string[] = [];
    page.on('pageerror', ({ message }) => errors.push(message));
    await page.goto('/trees/psu-5v-low/supply-kind/');
    const isBlocked = await page.evaluate(() => {
      try {
        return localStorage.length < 0;
      } catch (error) {
        return error instanceof DOMException && error.name === 'SecurityError';
      }
    });
    expect(isBlocked).toBe(true);
    await page.getByRole('link', { name: 'A heavy transformer inside the case' }).click();
    await page.waitForURL('**/rail-bare/#*');
    await page.getByText('This browser keeps nothing').waitFor({ state: 'attached' });
    await page.goto('/trees/psu-5v-low/brick-wrong/#supply-kind=brick&brick-label=wrong');
    await page.locator('.gate-now').waitFor();
    await passGates(page, { press: (thing) => thing.click() });
    await page.getByRole('button', { name: 'I have done this repair' }).click();
    await page.getByText('This browser keeps nothing').waitFor();
    const coming = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Save the job as a file' }).locator('visible=true').click();
    const file: { events: readonly { kind: string }[] } = JSON.parse(readFileSync(await (await coming).path(), 'utf8'));
    expect(file.events.map(({ kind }) => kind).sort()).toEqual(['answer', 'answer', 'opened', 'repair']);
    expect(errors).toEqual([]);
    await context.close();
    rmSync(profile, { recursive: true, force: true });
  });
});

describe('a disk that is full', () => {
  it('is told at once, nothing is lost, the file is offered, and what was held goes in when there is room again', async () => {
    const { page, open, remember } = await bench.visit(phone, /Quota/u);
    await remember('halfsplit.marks', read);
    await open('/trees/psu-5v-low/supply-kind/');
    // Before anything is stored: Chromium asks for the room that is left only every half minute.
    const client = await page.context().newCDPSession(page);
    await client.send('Storage.overrideQuotaForOrigin', { origin: inject('siteAddress'), quotaSize: 1 });
    await walkOne(page);
    await page.getByText('No room is left in this browser').waitFor();
    await page.locator('a.outcome[data-answers="low"]').tap();
    await page.waitForURL('**/regulator-out/#*');
    await page.getByText('No room is left in this browser').waitFor();
    expect(await page.evaluate(() => sessionStorage.getItem('halfsplit.log-held'))).toContain('rail-bare');
    expect(await dumpLog(page)).not.toContain('rail-bare');
    const file = await saveJob(page, 'Save the job as a file');
    expect(file.events.map(({ kind }) => kind).sort()).toEqual(['answer', 'answer', 'intake', 'opened']);

    await page.goto('/log/');
    await page.locator('[data-jobs] a').first().tap();
    await page.getByText('No room is left in this browser').waitFor();
    await expect.poll(() => page.locator('[data-readings] li').count()).toBe(2);
    await page.locator('details[data-part="photos"] > summary').tap();
    const dot = await page.evaluate(() => document.createElement('canvas').toDataURL('image/png').split(',')[1] ?? '');
    await page
      .locator('input[name="photo"]')
      .setInputFiles({ name: 'p.png', mimeType: 'image/png', buffer: Buffer.from(dot, 'base64') });
    await page.getByText('There is no room for it in this browser').waitFor();

    await client.send('Storage.overrideQuotaForOrigin', { origin: inject('siteAddress') });
    await page.locator('details[data-part="notes"] > summary').tap();
    await page.getByLabel('A note').fill('room again');
    await page.getByRole('button', { name: 'Add the note' }).tap();
    await page.locator('[data-notes]').getByText('room again').waitFor();
    expect(await dumpLog(page)).toContain('rail-bare');
    expect(await page.evaluate(() => sessionStorage.getItem('halfsplit.log-held'))).toBeNull();
  });
});

describe('a file that is read', () => {
  let visit: Visit;
  beforeAll(async () => {
    visit = await bench.visit(phone);
    await visit.remember('halfsplit.marks', read);
    await visit.open('/trees/psu-5v-low/supply-kind/');
    await walkOne(visit.page);
    await visit.page.getByText('Saved in your bench log').waitFor();
    await visit.page.goto('/log/');
    await visit.page.locator('[data-jobs] a').first().waitFor();
  });

  it.each(damagedFiles)(
    'changes nothing and is answered clearly where it is damaged: $name',
    async ({ content, says }) => {
      const { page } = visit;
      const before = await dumpLog(page);
      await page.locator('input[name="import"]').setInputFiles({
        name: 'log.json',
        mimeType: 'application/json',
        buffer: Buffer.from(content),
      });
      await page.locator('[data-notices]').getByText('Nothing was imported, and your log is as it was.').waitFor();
      expect(await page.locator('[data-notices]').textContent()).toMatch(says);
      expect(await dumpLog(page)).toBe(before);
      expect(await page.locator('[data-jobs] li').count()).toBe(1);
    },
  );

  it('takes a job with a photograph to another browser and back, whole', async () => {
    const { page } = visit;
    await page.locator('[data-jobs] a').first().tap();
    await page.locator('details[data-part="photos"] > summary').tap();
    // A picture of 4,000 × 100 pixels, drawn by the browser itself.
    const picture = await page.evaluate(async () => {
      const canvas = document.createElement('canvas');
      canvas.width = 4000;
      canvas.height = 100;
      canvas.getContext('2d')?.fillRect(10, 10, 500, 50);
      return canvas.toDataURL('image/png').split(',')[1] ?? '';
    });
    await page.getByLabel('What it shows').fill('left <i>side</i>');
    await page
      .locator('input[name="photo"]')
      .setInputFiles({ name: 'p.png', mimeType: 'image/png', buffer: Buffer.from(picture, 'base64') });
    const image = page.locator('[data-photos] img');
    await image.waitFor();
    expect(
      await image.evaluate((shown: HTMLImageElement) =>
        shown.decode().then(() => [shown.naturalWidth, shown.naturalHeight]),
      ),
    ).toEqual([1600, 40]);
    expect(await image.getAttribute('alt')).toBe('left <i>side</i>');
    const coming = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Save the job as a file' }).tap();
    const path = await (await coming).path();

    const other = await bench.visit(phone);
    await other.open('/log/');
    await other.page.locator('input[name="import"]').setInputFiles(path);
    await other.page.getByText(/^Read: \d+ new entries and 1 photographs were added/).waitFor();
    await other.page.locator('[data-jobs] a').first().tap();
    await other.page.locator('details[data-part="photos"] > summary').tap();
    await other.page.locator('[data-photos] img').waitFor();
    expect(await other.page.locator('[data-readings] li').count()).toBe(1);
    await other.page.goto('/log/');
    await other.page.locator('input[name="import"]').setInputFiles(path);
    await other.page.getByText('Everything in this file is in your log already.').waitFor();
  });

  it('holds a large file in rows of many events, and what an earlier version kept one a row is read beside them', async () => {
    const { page, open } = await bench.visit(phone);
    const at = (index: number): string => new Date(Date.UTC(2026, 0, 31, 12, 0, index)).toISOString();
    const note = (index: number) => ({
      id: `n${index}`,
      job: 'many',
      at: at(index),
      device: 'd',
      kind: 'note',
      text: `Note ${index}`,
    });
    const importNotes = async (count: number, says: RegExp): Promise<void> => {
      const events = Array.from({ length: count }, (_, index) => note(index));
      const content = JSON.stringify({ format: 'bench-log', version: 2, made: at(0), events, photos: [] });
      await page
        .locator('input[name="import"]')
        .setInputFiles({ name: 'log.json', mimeType: 'application/json', buffer: Buffer.from(content) });
      await page.locator('[data-notices]').getByText(says).waitFor();
    };
    await open('/log/');
    await importNotes(1, /^Read: 1 new entries/);
    await importNotes(1200, /^Read: 1199 new entries/);
    await importNotes(1200, /in your log already/);
    expect(await page.evaluate(countRows)).toBe(4);
    // Another tab that imported the same at the same time has left the same events under another row.
    await page.evaluate(doubleRows);
    await importNotes(1200, /in your log already/);
    await page.reload();
    await page.locator('[data-jobs] a').tap();
    await page.locator('details[data-part="notes"] > summary').tap();
    await page.getByRole('button', { name: 'Show 200 of 1000 earlier ones' }).waitFor();
    expect(await page.locator('[data-notes] li').last().textContent()).toContain('Note 1199');
    await page.getByRole('button', { name: 'Undo' }).tap();
    await page.getByRole('button', { name: 'Show 200 of 999 earlier ones' }).waitFor();
    expect((await readStore(page)).filter(({ kind }) => kind === 'undo')).toHaveLength(1);
  });

  it('a picture that is none is refused, and nothing is kept', async () => {
    const { page } = visit;
    await page.goto('/log/');
    await page.locator('[data-jobs] a').first().tap();
    await page.locator('details[data-part="photos"] > summary').tap();
    const before = await dumpLog(page);
    await page
      .locator('input[name="photo"]')
      .setInputFiles({ name: 'p.png', mimeType: 'image/png', buffer: Buffer.from('<svg onload="alert(1)"/>') });
    await page.getByText('The browser cannot read this file as a picture').waitFor();
    expect(await dumpLog(page)).toBe(before);
  });
});

import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { findViolations, phone, useBench } from './open-browser.ts';

const bench = useBench();
const whole = useBench({ isWhole: true });

const read = 'first-plug mains scope-ground charged-capacitor hot-parts overvoltage';

describe('one hand', () => {
  it('keeps the screen awake only while the switch is on', async () => {
    const { page, open, remember } = await whole.visit(phone);
    await remember('halfsplit.marks', read);
    await page.addInitScript(() => {
      const own = Reflect.get(navigator, 'wakeLock');
      if (!(own instanceof EventTarget) && typeof own !== 'object') return;
      const request = WakeLock.prototype.request;
      Object.assign(globalThis, { locks: [] });
      WakeLock.prototype.request = async function (this: WakeLock, ...rest) {
        const lock = await request.apply(this, rest);
        Reflect.get(globalThis, 'locks').push(lock);
        return lock;
      };
    });
    await open('/trees/psu-5v-low/rail-bare/');
    const states = (): Promise<readonly boolean[]> =>
      page.evaluate(() => Reflect.get(globalThis, 'locks').map((lock: WakeLockSentinel) => lock.released));
    expect(await states()).toEqual([]);
    const box = page.getByRole('checkbox', { name: 'Keep the screen awake' });
    await box.check();
    await expect.poll(states).toEqual([false]);
    await box.uncheck();
    await expect.poll(states).toEqual([true]);
  });

  it('reads the sheet aloud on request, never by itself, and stops', async () => {
    const { page, open, remember } = await bench.visit(phone);
    await remember('halfsplit.marks', read);
    // This machine has no voice: what would be spoken is noted where the browser would speak it.
    await page.addInitScript(() => {
      const spoken: string[] = [];
      Object.assign(globalThis, { spoken });
      let isSpeaking = false;
      SpeechSynthesis.prototype.speak = ({ text }) => {
        isSpeaking = true;
        spoken.push(text);
      };
      SpeechSynthesis.prototype.cancel = () => {
        isSpeaking = false;
      };
      Object.defineProperty(SpeechSynthesis.prototype, 'speaking', { get: () => isSpeaking });
    });
    await open('/trees/psu-5v-low/rail-bare/');
    const spoken = (): Promise<readonly string[]> => page.evaluate(() => Reflect.get(globalThis, 'spoken'));
    expect(await spoken()).toEqual([]);
    await page.getByRole('button', { name: 'Read aloud' }).tap();
    await page.getByRole('button', { name: 'Stop reading' }).waitFor();
    const text = (await spoken()).join(' ');
    // Cautions first, then the question, the instruction and the answers.
    const order = [
      'Power on, case open: clip first',
      '5 V at the farthest chip',
      'pull out every cartridge',
      'Nothing there',
    ].map((part) => text.indexOf(part));
    expect(
      order.every((place) => place >= 0),
      text,
    ).toBe(true);
    expect(order.toSorted((one, other) => one - other)).toEqual(order);
    await page.getByRole('button', { name: 'Stop reading' }).tap();
    await page.getByRole('button', { name: 'Read aloud' }).waitFor();
  });

  it('counts the minutes that a check says to wait, and tells when they are over', async () => {
    const { page, open, remember } = await bench.visit(phone);
    await remember('halfsplit.marks', read);
    await page.clock.install();
    await open('/trees/psu-5v-low/rail-bare/');
    await page.getByRole('button', { name: 'Start the timer: 5 min' }).tap();
    await page.getByRole('button', { name: 'Stop the timer' }).waitFor();
    await page.clock.runFor('01:00');
    expect(await page.getByRole('timer').textContent()).toMatch(/^(4:00|3:5\d)$/);
    await page.clock.runFor('04:01');
    await page.getByText('Time is up: take the reading now.').waitFor();
  });

  it('has no timer where nothing is to be waited for', async () => {
    const { page, open } = await bench.visit(phone);
    await open('/trees/psu-5v-low/supply-kind/');
    expect(await page.locator('[data-wait]').count()).toBe(0);
  });
});

const head = (minute: number) => ({
  id: `e${minute}`,
  job: 'full',
  at: new Date(Date.UTC(2026, 0, 31, 12, minute)).toISOString(),
  device: 'tab',
});

async function importJob(page: Page, events: readonly object[]): Promise<void> {
  const text = JSON.stringify({ format: 'bench-log', version: 1, made: head(0).at, events, photos: [] });
  await page
    .locator('input[name="import"]')
    .setInputFiles({ name: 'j.json', mimeType: 'application/json', buffer: Buffer.from(text) });
  await page.getByText(/^Read: /).waitFor();
  await page.locator('[data-jobs] a').first().click();
  await page.locator('[data-view="job"] h1').waitFor();
}

/** Letter between margins of 10 mm, in CSS pixels of 1/96 inch: (8.5 × 25.4 − 20) mm by (11 × 25.4 − 20) mm. */
const letter = { width: 740, height: 980 };

/** Whether the sheet shows all it holds on a page of Letter, nothing cut off at its end. */
async function isSheetWhole(page: Page): Promise<boolean> {
  await page.setViewportSize(letter);
  await page.emulateMedia({ media: 'print' });
  return page.locator('[data-sheet]').evaluate((sheet) => sheet.scrollHeight <= sheet.clientHeight);
}

/** A job as full as the schema allows in what matters: long texts and many readings. */
async function fillJob(page: Page): Promise<void> {
  const long = 'The owner says it went silent after the move, and came back twice when the case was knocked. '.repeat(
    30,
  );
  const events = [
    { ...head(0), kind: 'opened', symptom: 'no sound at all' },
    { ...head(1), kind: 'unit', maker: 'Quillon', model: '44', serial: '0042', revision: 'B' },
    {
      ...head(2),
      kind: 'intake',
      said: long.slice(0, 4000),
      keep: 'sixty-four patches',
      mains: 'inside-covered',
      limitHours: 4,
    },
    ...Array.from({ length: 60 }, (_, index) => ({
      ...head(3 + index),
      kind: 'answer',
      tree: 'psu-5v-low',
      treeTitle: '5 V rail too low',
      node: `check-${index}`,
      value: '4.71V',
      question: `Question number ${index}, as long as questions are allowed to be here?`,
    })),
    {
      ...head(70),
      kind: 'repair',
      tree: 'psu-5v-low',
      cause: 'reservoir-dry',
      title: 'Reservoir dry',
      part: '4700 µF 25 V',
      tested: 'yes',
    },
    { ...head(71), kind: 'result', repair: 'e70', result: 'cured' },
    { ...head(72), kind: 'proof', showing: { how: 'hours', meanHours: 2 }, done: 6, isClean: true },
    ...Array.from({ length: 12 }, (_, index) => ({ ...head(80 + index), kind: 'note', text: long.slice(0, 4000) })),
    ...Array.from({ length: 12 }, (_, index) => ({
      ...head(100 + index),
      kind: 'part',
      name: `Part ${index}`,
      status: 'wanted',
    })),
    { ...head(120), kind: 'closed', how: 'cured', summary: long.slice(0, 4000) },
  ];
  await importJob(page, events);
}

/** Pages of a PDF: its page objects, which are never compressed away from their type by Chromium's writer. */
function countPages(pdf: Buffer): number {
  return pdf.toString('latin1').match(/\/Type\s*\/Page(?![s\w])/g)?.length ?? 0;
}

describe('paper', () => {
  it.each(['A4', 'Letter'] as const)(
    'a job fits one page of %s, however much it holds, with unit, repair and proof',
    async (format) => {
      const { page, open } = await bench.visit();
      await open('/log/');
      await fillJob(page);
      const pdf = await page.pdf({ format, margin: { top: '10mm', bottom: '10mm', left: '10mm', right: '10mm' } });
      expect(countPages(pdf)).toBe(1);
      await page.emulateMedia({ media: 'print' });
      const sheet = page.getByRole('article', { name: 'Job sheet' });
      for (const words of [
        'Quillon 44',
        '0042',
        'no sound at all',
        'Reservoir dry, fitted: 4700 µF 25 V: repaired',
        'Proved.',
        'more, in the job’s file',
        // What was read is the last to give way.
        'Question number 59',
      ]) {
        expect(await sheet.getByText(words).first().isVisible(), words).toBe(true);
      }
      expect(await page.locator('[data-view="job"]').isVisible()).toBe(false);
      expect(await isSheetWhole(page)).toBe(true);
    },
  );

  it('leaves nothing out that has room, names the board by its title, and drops notes before a reading', async () => {
    const { page, open } = await bench.visit();
    const answers = (count: number) =>
      Array.from({ length: count }, (_, index) => ({
        ...head(3 + index),
        kind: 'answer',
        tree: 'audio-hum',
        treeTitle: 'Hum in the sound',
        node: `check-${index}`,
        question: `Does the earth reach the metal case, ${index}?`,
        ...(index === 0 ? { value: '0.3ohm', verdict: 'high' } : { value: 'in', verdict: '“Earth is there”' }),
      }));
    const notes = (count: number) =>
      Array.from({ length: count }, (_, index) => ({ ...head(60 + index), kind: 'note', text: `Note ${index}.` }));
    const begin = [
      { ...head(0), kind: 'opened' },
      { ...head(1), kind: 'unit', slug: 'quillon-44' },
    ];
    await open('/log/');
    await importJob(page, [...begin, ...answers(15), ...notes(12)]);
    const sheet = page.locator('[data-sheet]');
    expect(await sheet.textContent()).toMatch(/Unit\s*Quillon 44/u);
    expect(await sheet.textContent()).not.toMatch(/quillon-44|in the job’s file/u);
    expect(await sheet.textContent()).toMatch(/0\.3\sΩ \(high\)/u);
    expect(await sheet.textContent()).toContain('Earth is there');
    expect(await isSheetWhole(page)).toBe(true);
    await page.emulateMedia({ media: 'screen' });

    await page.goto('/log/');
    await importJob(page, [...answers(50), ...notes(40)].slice(15));
    const text = (await sheet.textContent()) ?? '';
    expect(text).toMatch(/0\.3\sΩ \(high\)/u);
    expect(text).not.toContain('Note 0.');
    expect(text).toContain('And 40 more, in the job’s file.');
    expect(await isSheetWhole(page)).toBe(true);
  });

  it('a tree is a service sheet: its graph, every answer with a box, and room for the reading', async () => {
    const { page, open } = await bench.visit();
    await open('/trees/psu-5v-low/all/');
    await page.emulateMedia({ media: 'print' });
    expect(await page.locator('.graph .canvas svg').isVisible()).toBe(true);
    expect(await page.locator('.graph .ladder svg').isVisible()).toBe(false);
    const marks = await page
      .locator('.all-nodes article.check')
      .first()
      .evaluate((article) => [
        getComputedStyle(article.querySelector('.outcome .label') ?? article, '::before').content,
        getComputedStyle(article.querySelector('.outcomes') ?? article, '::after').content,
      ]);
    expect(marks[0]).toContain('☐');
    expect(marks[1]).toContain('Reading: ____');
    expect(await page.locator('.bench-aids').count()).toBe(0);
    expect(await page.locator('.job-recorder').isVisible()).toBe(false);
  });
});

describe('WCAG 2.2 A and AA as far as axe can judge, light and dark', () => {
  it('no violation in any view of the log, nor in its print', async () => {
    const { page, open } = await bench.visit(phone);
    const check = async (name: string): Promise<void> => {
      expect(await findViolations(page), name).toEqual([]);
    };
    await open('/log/');
    await check('empty list');
    await fillJob(page);
    for (const details of await page.locator('[data-view="job"] details').all()) {
      await details.evaluate((element: HTMLDetailsElement) => {
        element.open = true;
      });
    }
    await check('job');
    await page.emulateMedia({ media: 'print' });
    await check('job sheet');
    await page.emulateMedia({ media: 'screen' });
    await page.goto('/log/');
    await page.locator('[data-jobs] li').first().waitFor();
    await check('list');
    for (const view of ['new', 'bench']) {
      await page.goto(`/log/#${view}`);
      await page.locator(`[data-view="${view}"] h1`).waitFor();
      await check(view);
    }
    await page.evaluate(() => sessionStorage.setItem('halfsplit.marks', 'first-plug mains overvoltage first-soak'));
    await page.goto('/trees/psu-5v-low/brick-wrong/');
    await page.getByRole('button', { name: 'I have done this repair' }).tap();
    await page.getByRole('button', { name: 'Worse or different' }).tap();
    await page.locator('.rework').waitFor();
    // High enough that the bar at the foot covers nothing.
    await page.setViewportSize({ width: 390, height: 5000 });
    await check('after the repair');
  });
});

describe('text at 200 %', () => {
  it.each([
    '/log/#new',
    '/log/#bench',
    '/trees/psu-5v-low/rail-bare/',
    '/targets/',
    '/targets/ripple-frequency/',
    '/units/quillon-44/',
  ])('never runs out of a narrow screen: %s', async (path) => {
    const { page, open, remember } = await bench.visit({ viewport: { width: 390, height: 844 } });
    await remember('halfsplit.marks', read);
    await open(path);
    await page.evaluate(() => {
      document.documentElement.style.fontSize = '200%';
    });
    const [wide, window] = await page.evaluate(() => [document.documentElement.scrollWidth, innerWidth]);
    expect(wide).toBeLessThanOrEqual(window ?? 0);
  });
});

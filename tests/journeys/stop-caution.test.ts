import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readPathSoFar } from './hands.ts';
import { type Bench, desktop, openBench, phone } from './open-browser.ts';

let bench: Bench;
beforeAll(async () => {
  bench = await openBench();
});
afterAll(async () => {
  await bench.close();
});

// A powered check of a unit with a transformer, so the mains caution stops the reader.
const powered = '/trees/psu-5v-low/rail-bare/';
const link = `${powered}#supply-kind=iron`;
const screens = [
  ['a phone', phone],
  ['a desktop', desktop],
] as const;

describe.each(screens)('a step under a stop caution, opened by a direct link on %s', (_name, screen) => {
  it('shows the caution as the whole first screen: neither instruction, target nor outcome can be seen or read out', async () => {
    const { page, open, faults, end } = await bench.visit(screen);
    await open(link);

    await page.getByRole('region', { name: /^Danger: Mains/u }).waitFor();
    const box = await page.getByRole('region', { name: /^Danger: Mains/u }).boundingBox();
    expect(box?.y ?? 1000).toBeLessThan(140);
    expect((box?.y ?? 0) + (box?.height ?? 0)).toBeGreaterThanOrEqual(screen.viewport.height - 60);
    expect(await page.locator('#step').isVisible()).toBe(false);
    expect(await page.getByRole('heading', { level: 1 }).count()).toBe(0);
    expect(await page.locator('a.outcome:visible').count()).toBe(0);
    expect(await page.locator('.target:visible').count()).toBe(0);
    expect(faults).toEqual([]);
    await end();
  });

  it('shows the step once the caution was read, with the caution still above it as one line, and keeps the answers', async () => {
    const { page, open, faults, end } = await bench.visit(screen);
    await open(link);
    await page.getByRole('link', { name: /go on$/u }).click();

    await page.getByRole('heading', { level: 1 }).waitFor();
    const caution = await page.getByRole('region', { name: /^Danger: Mains/u }).boundingBox();
    const heading = await page.getByRole('heading', { level: 1 }).boundingBox();
    expect(caution?.height ?? 1000).toBeLessThan(80);
    expect(caution?.y ?? 1000).toBeLessThan(heading?.y ?? 0);
    expect(await page.locator('a.outcome:visible').count()).toBe(4);
    expect(await page.evaluate(() => document.activeElement?.matches('.caution:not(.read) summary, h1'))).toBe(true);
    expect(await readPathSoFar(page)).toEqual(['What makes the 5 V?: A heavy transformer inside the case']);
    expect(faults).toEqual([]);
    await end();
  });

  it('stops anew in a new browser, and not a second time in this one', async () => {
    const visit = await bench.visit(screen);
    await visit.open(link);
    await visit.page.getByRole('link', { name: /go on$/u }).click();
    await visit.open('/trees/psu-5v-low/regulator-out/');
    expect(await visit.page.locator('#step').isVisible()).toBe(true);

    const other = await bench.visit(screen);
    await other.open('/trees/psu-5v-low/regulator-out/');
    expect(await other.page.locator('#step').isVisible()).toBe(false);
    expect([...visit.faults, ...other.faults]).toEqual([]);
    await visit.end();
    await other.end();
  });

  it('leads whoever refuses to the hand-over sheet, with the answers given so far', async () => {
    const { page, open, faults, end } = await bench.visit(screen);
    await open(link);
    await page.getByRole('link', { name: /^I will not do this/u }).click();
    await page.waitForURL(/\/hand-over\/#/u);

    expect(new URL(page.url()).hash).toBe('#psu-5v-low/supply-kind=iron');
    expect(await page.locator('[data-known-list]').textContent()).toContain('A heavy transformer inside the case');
    expect(faults).toEqual([]);
    await end();
  });

  it('without script stands above the instruction, and the outcomes lead on', async () => {
    const { page, open, end } = await bench.visit({ ...screen, javaScriptEnabled: false });
    await open(powered);

    const caution = await page.locator('.caution.danger .text').boundingBox();
    const heading = await page.locator('h1').boundingBox();
    expect(caution).not.toBeNull();
    expect(caution?.y ?? 10_000).toBeLessThan(heading?.y ?? 0);
    expect(await page.locator('.prose').isVisible()).toBe(true);
    await page.getByRole('link', { name: /^Low/u }).click();
    await page.waitForURL('**/trees/psu-5v-low/regulator-out/');
    expect(await page.locator('h1').textContent()).toBe('Is 5 V low at the regulator already?');
    await end();
  });
});

describe('the page of a whole tree, for paper', () => {
  it.each([true, false])(
    'shows every sheet with its cautions open above it, script or not (%s)',
    async (javaScriptEnabled) => {
      const { page, open, end } = await bench.visit({ ...phone, javaScriptEnabled });
      await open('/trees/psu-5v-low/all/');

      const sheet = page.locator('article[data-node="rail-bare"]');
      expect(await sheet.locator('.caution.danger .text').isVisible()).toBe(true);
      expect(await sheet.locator('.heading').isVisible()).toBe(true);
      const caution = await sheet.locator('.caution.danger').boundingBox();
      const heading = await sheet.locator('.heading').boundingBox();
      expect(caution?.y ?? 1e6).toBeLessThan(heading?.y ?? 0);
      await end();
    },
  );
});

describe('where the mains is', () => {
  it('is asked once a job; outside the case takes the mains caution off a powered check, and no other caution', async () => {
    const { page, open, faults, end } = await bench.visit(phone);
    await open(powered);
    await page.getByRole('radio', { name: /a separate supply feeds it/u }).check();
    await page.getByRole('link', { name: /go on$/u }).click();

    expect(await page.locator('[data-caution="mains"]').isVisible()).toBe(false);
    expect(await page.locator('[data-caution="overvoltage"]').isVisible()).toBe(true);
    await open('/trees/psu-5v-low/regulator-out/');
    expect(await page.locator('[data-caution="mains"]').isVisible()).toBe(false);
    expect(await page.locator('[data-caution="charged-capacitor"]').isVisible()).toBe(true);
    expect(await page.locator('[data-caution="hot-parts"]').isVisible()).toBe(true);
    expect(faults).toEqual([]);
    await end();
  });

  it('leaves the mains caution on a step that has it for more than its power: a fuse, the unit unplugged', async () => {
    const { page, open, remember, end } = await bench.visit(phone);
    await remember('halfsplit.mains', 'outside tree:psu-fuse-blows');
    // what-goes of psu-fuse-blows: power off, and the author placed the caution.
    await open('/trees/psu-fuse-blows/what-goes/');
    expect(await page.locator('[data-caution="mains"]').isVisible()).toBe(true);
    await end();
  });

  it('counts as inside and bare for whoever answers that they do not know', async () => {
    const { page, open, end } = await bench.visit(phone);
    await open(powered);
    expect(await page.getByRole('radio', { name: 'I do not know' }).isChecked()).toBe(true);
    await page.getByRole('link', { name: /go on$/u }).click();
    expect(await page.locator('[data-caution="mains"]').isVisible()).toBe(true);
    await end();
  });
});

// A step with the covers on and the power on, one with both lid and power on after it, and one with power on and the case open.
const shut = '/trees/audio-hum/outside-try/';
const openLive = '/trees/audio-hum/speaker-dc/';

describe.each(screens)('a step with power on and the case open, on %s', (_name, screen) => {
  const cases = [
    [
      'by the reader',
      'inside-bare',
      '',
      /^Mains parts are bare: this step is not for this unit/u,
      /is covered now: go on$/u,
    ],
    [
      'by the unit',
      undefined,
      '#unit=quillon-44',
      /^Mains parts are bare: this step is not/u,
      /is covered now: go on$/u,
    ],
    ['by the open job', undefined, 'job', /^Mains parts are bare: this step is not/u, /is covered now: go on$/u],
    [
      'by nobody',
      undefined,
      '',
      /^You do not know where the mains is\./u,
      /^I have looked, every mains part is covered: go on$/u,
    ],
  ] as const;

  it.each(cases)(
    'is not for a unit with bare mains parts, said %s: handing over comes first, going on says what must be so',
    async (_by, said, fragment, note, goOn) => {
      const { page, open, faults, remember, end } = await bench.visit(screen);
      if (said !== undefined) await remember('halfsplit.mains', `${said} tree:audio-hum`);
      if (fragment === 'job') {
        // A job as src/browser/open-job.ts keeps it, seen in no tab yet.
        const brief = JSON.stringify({ id: 'j1', name: 'Quillon 44', changedAt: 1, mains: 'inside-bare', answers: 1 });
        await page.addInitScript((text) => {
          if (!location.protocol.startsWith('http')) return;
          localStorage.setItem('halfsplit.job-open', 'j1');
          localStorage.setItem('halfsplit.job-brief', text);
        }, brief);
      }
      await open(fragment === 'job' ? openLive : `${openLive}${fragment}`);

      const box = page.getByRole('region', { name: /^Danger: Mains/u });
      await box.getByText(note).waitFor();
      const whole = await box.locator('[data-bare]').textContent();
      expect(whole).toMatch(
        /covered by someone competent, the\s+unit unplugged and discharged\. Or hand over\. Or go by/u,
      );
      expect(await box.locator('.gate a').allTextContents()).toEqual([
        expect.stringMatching(/I will not do this: hand over/u),
        expect.stringMatching(goOn),
      ]);
      expect(await page.locator('#step').isVisible()).toBe(false);
      // A unit chosen has answered where the mains is.
      expect(await box.locator('fieldset').isVisible()).toBe(fragment !== '#unit=quillon-44');
      expect(faults).toEqual([]);
      await end();
    },
  );

  it('changes its words with the answer marked, before anything is pressed', async () => {
    const { page, open, end } = await bench.visit(screen);
    await open(openLive);
    const box = page.getByRole('region', { name: /^Danger: Mains/u });
    await box.getByRole('radio', { name: /mains tags are bare/u }).check();
    expect(await box.locator('[data-bare] strong').textContent()).toMatch(/^Mains parts are bare/u);
    await box.getByRole('radio', { name: /every mains part is covered/u }).check();
    expect(await box.locator('[data-bare]').isVisible()).toBe(false);
    expect(await box.locator('.gate a').first().textContent()).toMatch(/it is safe for me to go on/u);
    await end();
  });

  it('asks for a caution again that was read with the case closed, and once only', async () => {
    const { page, open, faults, end } = await bench.visit(screen);
    await open(shut);
    await page.getByRole('radio', { name: /every mains part is covered/u }).check();
    await page.getByRole('link', { name: /go on$/u }).click();
    expect(await page.locator('#step').isVisible()).toBe(true);
    await open('/trees/audio-hum/knob/');
    expect(await page.locator('#step').isVisible()).toBe(true);

    await open(openLive);
    const box = page.getByRole('region', { name: /^Danger: Mains/u });
    expect(await box.getByText('Here power is on while the case is open.').isVisible()).toBe(true);
    expect(await page.locator('#step').isVisible()).toBe(false);
    await page.getByRole('link', { name: /go on$/u }).click();
    expect(await page.locator('#step').isVisible()).toBe(true);
    await page.reload();
    expect(await page.locator('#step').isVisible()).toBe(true);
    // Both of its stop cautions, mains and the scope's ground: the first was read, the second was not.
    await open('/trees/audio-hum/ripple-rate/');
    expect(await box.evaluate((element) => element.classList.contains('read'))).toBe(true);
    expect(faults).toEqual([]);
    await end();
  });

  it('asks anew where a board with bare mains parts is chosen after it was read for covered ones', async () => {
    const { page, open, end } = await bench.visit(screen);
    await open(openLive);
    await page.getByRole('radio', { name: /every mains part is covered/u }).check();
    await page.getByRole('link', { name: /go on$/u }).click();
    await open(`${openLive}#unit=quillon-44`);
    await page.getByText(/^Mains parts are bare: this step is not/u).waitFor();
    await page.locator('#step').waitFor({ state: 'hidden' });
    await end();
  });

  it('needs one press where it is the first powered step, which then counts with the case closed too', async () => {
    const { page, open, end } = await bench.visit(screen);
    await open(openLive);
    await page.getByRole('link', { name: /go on$/u }).click();
    expect(await page.locator('#step').isVisible()).toBe(true);
    await open(shut);
    expect(await page.locator('#step').isVisible()).toBe(true);
    await end();
  });

  it('says without script for whom it is not', async () => {
    const { page, open, end } = await bench.visit({ ...screen, javaScriptEnabled: false });
    await open(openLive);
    expect(
      await page.getByText(/^Mains parts bare, or you do not know: this step is not for this unit/u).isVisible(),
    ).toBe(true);
    await open(shut);
    expect(await page.locator('[data-bare]').count()).toBe(0);
    await end();
  });
});

describe.each(screens)('an answer that leads to a hand-over for safety, on %s', (_name, screen) => {
  const handOver = 'Mains lead or earth bad: hand over';
  const before = 'outside-try=stays&character=hum&brick-swap=stays';

  it.each(['2ohm', 'high'])(
    'holds on every page of the tree (%s), with the hand-over and a way to take it back',
    async (value) => {
      const { page, open, faults, remember, end } = await bench.visit(screen);
      await remember('halfsplit.cautions-read', 'mains');
      await open(`/trees/audio-hum/knob/#${before}&earth-path=${value}`);

      const notice = page.locator('.notices [data-road-end]');
      await notice.waitFor();
      const heading = await page.getByRole('heading', { level: 1 }).boundingBox();
      expect((await notice.boundingBox())?.y ?? 1e6).toBeLessThan(heading?.y ?? 0);
      expect(await notice.textContent()).toMatch(
        new RegExp(
          `^By your answer to “Does the earth reach the metal case\\?” the road ends here: ${handOver}\\.`,
          'u',
        ),
      );
      // What next goes no other way, and promises no repair.
      await page.locator('[data-likely] .step-on').waitFor();
      expect(await page.locator('[data-likely] .step-on').allTextContents()).toEqual([`The road ends here${handOver}`]);
      expect(await page.locator('[data-minutes]').textContent()).toBe('');

      await notice.getByRole('link').click();
      await page.waitForURL(/\/earth-missing\/#/u);
      expect(new URL(page.url()).hash).toContain(`earth-path=${value}`);
      await page.goBack();
      await notice.getByRole('button', { name: 'Take that answer back' }).click();
      await notice.waitFor({ state: 'detached' });
      expect(new URL(page.url()).hash).toBe(`#${before}`);
      expect(faults).toEqual([]);
      await end();
    },
  );

  it.each(['earth-path=0.05ohm', 'outside-try=place'])(
    'is not every answer: %s lets the road go on',
    async (answer) => {
      const { page, open, remember, end } = await bench.visit(screen);
      await remember('halfsplit.cautions-read', 'mains');
      await open(`/trees/audio-hum/knob/#${answer}`);
      await page.locator('[data-likely]:not([hidden])').waitFor();
      expect(await page.locator('[data-road-end]').count()).toBe(0);
      await end();
    },
  );

  it('on the sheet of the hand-over itself neither repair nor minutes stand, and the link takes along what is known', async () => {
    const { page, open, faults, remember, end } = await bench.visit(screen);
    await remember('halfsplit.cautions-read', 'mains old-mains-lead');
    await page.addInitScript(() => {
      window.Worker = class extends Worker {
        constructor(address: string | URL, options?: WorkerOptions) {
          super(address, options);
          this.addEventListener('message', () => document.documentElement.setAttribute('data-counted', ''));
        }
      };
    });
    await open(`/trees/audio-hum/earth-missing/#${before}&earth-path=2ohm`);
    const next = page.locator('[data-likely]');
    await next.getByText('This sheet ends the road here.').waitFor();
    // Minutes are counted beside the page: they have come.
    await page.locator('html[data-counted]').waitFor();
    expect(await next.textContent()).not.toMatch(/repair on this page|proven repair/u);
    expect(await page.locator('[data-road-end]').count()).toBe(0);
    expect(new URL((await next.locator('a.step-on').getAttribute('href')) ?? '', page.url()).hash).toContain(
      'earth-path=2ohm',
    );
    expect(faults).toEqual([]);
    await end();
  });
});

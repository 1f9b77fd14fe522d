import { describe, expect, it } from 'vitest';
import { type Hands, keyboard, passGates, readPathSoFar, thumb } from './hands.ts';
import { desktop, phone, useBench } from './open-browser.ts';

const bench = useBench();

// A powered check of a unit with a transformer, so the mains caution stops the reader.
const powered = '/trees/psu-5v-low/rail-bare/';
const link = `${powered}#supply-kind=iron`;
// A step with the covers on and the power on, and one with power on and the case open.
const shut = '/trees/audio-hum/outside-try/';
const openLive = '/trees/audio-hum/speaker-dc/';
const screens = [
  ['a phone', phone],
  ['a desktop', desktop],
] as const;

function hand(screen: typeof phone | typeof desktop): Hands {
  return screen === phone ? thumb : keyboard;
}

describe.each(screens)('a step under a danger, opened by a direct link on %s', (_name, screen) => {
  it('asks its question first: neither instruction, target nor outcome can be seen or read out', async () => {
    const { page, open } = await bench.visit(screen);
    await open(powered);

    const question = page.getByText('Is every mains part outside or covered?');
    await question.waitFor();
    const box = await question.boundingBox();
    expect((box?.y ?? 1000) + (box?.height ?? 0)).toBeLessThan(200);
    // At most 30 words above the question, and the refusal beside it.
    const above = (await page.locator('main').allInnerTexts()).join(' ').split('Is every mains part')[0] ?? '';
    expect(above.split(/\s+/u).length).toBeLessThanOrEqual(30);
    expect(await page.locator('.gate-now [data-refuse]').isVisible()).toBe(true);
    expect(await page.locator('[data-caution="mains"]').getByText('One touch of the mains can kill.').isVisible()).toBe(
      true,
    );
    expect(
      await page
        .getByText(/^Local electrical codes and workplace rules/u)
        .filter({ visible: true })
        .count(),
    ).toBe(1);
    expect(await page.locator('#step').isVisible()).toBe(false);
    expect(await page.getByRole('heading', { level: 1 }).count()).toBe(0);
    expect(await page.locator('a.outcome:visible').count()).toBe(0);
    expect(await page.locator('.target:visible').count()).toBe(0);
  });

  it('shows the step once it was answered, with the caution still above it as one line, and keeps the answers', async () => {
    const { page, open } = await bench.visit(screen);
    await open(link);
    await passGates(page, hand(screen));

    await page.getByRole('heading', { level: 1 }).waitFor();
    const caution = await page.getByRole('region', { name: /^Danger: Mains/u }).boundingBox();
    const heading = await page.getByRole('heading', { level: 1 }).boundingBox();
    expect(caution?.height ?? 1000).toBeLessThan(80);
    expect(caution?.y ?? 1000).toBeLessThan(heading?.y ?? 0);
    expect(await page.locator('a.outcome:visible').count()).toBe(4);
    // Two cautions stand open above the step, not read yet: the focus is on the first, so that who hears the page misses neither.
    const focused = page.locator('.caution:has(:focus)');
    expect(await focused.getAttribute('data-caution')).toBe(
      await page.locator('.caution:not(.read, [hidden])').first().getAttribute('data-caution'),
    );
    const box = await focused.boundingBox();
    expect(box?.y ?? 1000).toBeLessThan(heading?.y ?? 0);
    expect(await readPathSoFar(page)).toEqual(['What makes the 5 V?: A heavy transformer inside the case']);
    await page.locator('.caution.danger.read summary').first().click();
    expect(await page.locator('[data-caution="mains"]').getByText('One touch of the mains can kill.').isVisible()).toBe(
      true,
    );
  });

  it('stops again in a new browser, and not a second time in this one', async () => {
    const visit = await bench.visit(screen);
    await visit.open(link);
    await passGates(visit.page, hand(screen));
    await visit.open('/trees/psu-5v-low/regulator-out/');
    expect(await visit.page.locator('#step').isVisible()).toBe(true);

    const other = await bench.visit(screen);
    await other.open('/trees/psu-5v-low/regulator-out/');
    expect(await other.page.locator('#step').isVisible()).toBe(false);
  });

  it('leads anyone who refuses to the hand-over sheet, with the answers given so far', async () => {
    const { page, open } = await bench.visit(screen);
    await open(link);
    await page.getByRole('link', { name: 'Bare, or not sure: hand over' }).click();
    await page.waitForURL(/\/hand-over\/#/u);

    expect(new URL(page.url()).hash).toBe('#psu-5v-low/supply-kind=iron');
    await page.locator('[data-known-list]').getByText('A heavy transformer inside the case').waitFor();
  });

  it('without script has question, refusal and text above the instruction, and the outcomes lead on', async () => {
    const { page, open } = await bench.visit({ ...screen, javaScriptEnabled: false });
    await open(powered);

    const caution = await page.locator('.caution.danger .text').first().boundingBox();
    const heading = await page.locator('h1').boundingBox();
    expect(caution).not.toBeNull();
    expect(caution?.y ?? 10_000).toBeLessThan(heading?.y ?? 0);
    expect(await page.getByText('have someone competent cover it').isVisible()).toBe(true);
    expect(await page.getByRole('link', { name: 'Bare, or not sure: hand over' }).isVisible()).toBe(true);
    expect(await page.locator('.prose').isVisible()).toBe(true);
    await page.getByRole('link', { name: /^Low/u }).click();
    await page.waitForURL('**/trees/psu-5v-low/regulator-out/');
    expect(await page.locator('h1').textContent()).toBe('Is 5 V low at the regulator already?');
  });
});

describe('a caution that is no danger', () => {
  it('stands in full until the step was answered, then as one line; what a set-up brings then stands in its list', async () => {
    const { page, open } = await bench.visit(phone);
    await open('/trees/psu-5v-low/');
    // Said once: the job that the first answer begins takes it over.
    await page.evaluate(() => sessionStorage.setItem('halfsplit.mains', 'outside tree:psu-5v-low'));
    await open('/trees/psu-5v-low/regulator-out/');
    const hot = page.locator('[data-caution="hot-parts"]');
    const charged = page.locator('[data-caution="charged-capacitor"]');
    expect(await hot.locator('.text').isVisible()).toBe(true);
    expect(await charged.locator('.text').isVisible()).toBe(true);
    await page.reload();
    expect(await hot.locator('.text').isVisible()).toBe(true);
    await page.locator('a.outcome').first().tap();
    await page.waitForURL((url) => !url.pathname.includes('regulator-out'));
    await page.getByText('Saved in your bench log').waitFor({ state: 'attached' });
    await open('/trees/psu-5v-low/regulator-out/');
    expect(await hot.locator('summary').isVisible()).toBe(true);
    expect(await hot.locator('.text').isVisible()).toBe(false);
    expect(await page.locator('.cautions [data-caution="charged-capacitor"]').count()).toBe(0);
    const setups = page.locator('.step > .setups');
    if (!(await charged.isVisible())) await setups.locator('> summary').tap();
    await charged.locator('summary').tap();
    expect(await charged.locator('.text').isVisible()).toBe(true);
  });

  it('what was read of another unit hides nothing, also where the page’s script does not come', async () => {
    const { page, remember } = await bench.visit(phone, /Failed to load|ERR_FAILED|dynamically imported/u);
    await page.route('**/_astro/*.js', (route) => route.abort());
    await remember('halfsplit.marks', 'mains first-plug charged-capacitor');
    await remember('halfsplit.tree-units', 'closed-job psu-5v-low same');
    for (const [owner, isHeld] of [
      ['tree:audio-hum ', true],
      ['closed-job ', true],
      ['tree:psu-5v-low ', false],
    ] as const) {
      await remember('halfsplit.marks-of', owner);
      await page.goto(powered);
      await page.locator('[data-caution="mains"]').waitFor({ state: 'attached' });
      expect(await page.locator('.gate-now').count(), owner).toBe(isHeld ? 1 : 0);
    }
  });

  it('is known once the reader folds it', async () => {
    const { page, open, remember } = await bench.visit(phone);
    await remember('halfsplit.mains', 'outside tree:psu-5v-low');
    await open('/trees/psu-5v-low/regulator-out/');
    await page.locator('[data-caution="hot-parts"] summary').tap();
    await page.reload();
    expect(await page.locator('[data-caution="hot-parts"] .text').isVisible()).toBe(false);
  });
});

describe('the page of a whole tree, for paper', () => {
  it.each([true, false])(
    'shows every sheet with its cautions open above it, script or not (%s)',
    async (javaScriptEnabled) => {
      const { page, open } = await bench.visit({ ...phone, javaScriptEnabled });
      await open('/trees/psu-5v-low/all/');

      const sheet = page.locator('article[data-node="rail-bare"]');
      expect(await sheet.locator('.caution.danger .text').isVisible()).toBe(true);
      expect(await sheet.locator('.heading').isVisible()).toBe(true);
      const caution = await sheet.locator('.caution.danger').boundingBox();
      const heading = await sheet.locator('.heading').boundingBox();
      expect(caution?.y ?? 1e6).toBeLessThan(heading?.y ?? 0);
    },
  );
});

describe('where the mains is', () => {
  it('is asked once a job; outside the case takes the mains caution off a powered check, and no other caution', async () => {
    const { page, open } = await bench.visit(phone);
    await open(powered);
    await page.getByRole('link', { name: 'Outside: batteries or a brick feed it' }).tap();

    expect(await page.locator('[data-caution="mains"]').isVisible()).toBe(false);
    // No mains goes in, so no plate is asked for.
    expect(await page.locator('[data-caution="first-plug"]').isVisible()).toBe(false);
    expect(await page.locator('[data-caution="overvoltage"]').isVisible()).toBe(true);
    await open('/trees/psu-5v-low/regulator-out/');
    expect(await page.locator('[data-caution="mains"]').isVisible()).toBe(false);
    expect(await page.locator('[data-caution="charged-capacitor"]').isVisible()).toBe(true);
    expect(await page.locator('[data-caution="hot-parts"]').isVisible()).toBe(true);
  });

  it('leaves the mains caution on a step that has it for more than its power: a fuse, the unit unplugged', async () => {
    const { page, open, remember } = await bench.visit(phone);
    await remember('halfsplit.mains', 'outside tree:psu-fuse-blows');
    // what-goes of psu-fuse-blows: power off, and the author placed the caution.
    await open('/trees/psu-fuse-blows/what-goes/');
    expect(await page.locator('[data-caution="mains"]').isVisible()).toBe(true);
  });

  it('counts as inside and bare for anyone who answers that they are not sure', async () => {
    const { page, open, remember } = await bench.visit(phone);
    await remember('halfsplit.marks', 'first-plug');
    await open(shut);
    await page.getByRole('link', { name: 'Yes, or not sure: the case stays shut' }).tap();
    expect(await page.locator('[data-caution="mains"] summary').isVisible()).toBe(true);
    await open(openLive);
    await page.getByText('Is every mains part outside or covered?').waitFor();
    expect(await page.locator('#step').isVisible()).toBe(false);
  });

  it('and what was answered of one unit is not taken for another: a tree outside the job asks again', async () => {
    const { page, open } = await bench.visit(phone);
    await open(powered);
    await passGates(page);
    expect(await page.locator('#step').isVisible()).toBe(true);
    await open(openLive);
    await page.getByText('Is every mains part outside or covered?').waitFor();
    expect(await page.locator('#step').isVisible()).toBe(false);
  });

  it('and what was answered stays with the job that the first answer begins', async () => {
    const { page, open } = await bench.visit(phone);
    await open(link);
    await passGates(page);
    await page.getByRole('link', { name: /^Low/u }).tap();
    await page.waitForURL('**/regulator-out/#*');
    await page.locator('[data-job-kept]').waitFor();
    expect(await page.evaluate(() => sessionStorage.getItem('halfsplit.marks-of'))).not.toContain('tree:');
    await page.reload();
    expect(await page.locator('#step').isVisible()).toBe(true);
  });
});

describe('where a plug first goes in', () => {
  it('plate and long sleep are asked once, not before power is on, and then no more of this unit', async () => {
    const { page, open } = await bench.visit(phone);
    const question = page.getByText('Does its plate name your mains?');
    await open('/trees/audio-hum/lead-look/');
    expect(await page.locator('[data-caution="first-plug"]').count()).toBe(0);
    await open(shut);
    expect(await question.isVisible()).toBe(true);
    expect(await page.getByText('If not, or if unreadable, leave it unplugged').isVisible()).toBe(true);
    expect(await page.getByText('Is the mains supply in this case?').isVisible()).toBe(false);
    expect(await page.locator('#step').isVisible()).toBe(false);
    // One screen asks for plate, long sleep and where the mains is.
    await page.getByRole('link', { name: 'Yes, and its mains lead goes into the case' }).tap();
    expect(await page.locator('#step').isVisible()).toBe(true);
    expect(await page.locator('[data-caution="first-plug"]').isVisible()).toBe(false);
    expect(await page.locator('[data-caution="mains"] summary').isVisible()).toBe(true);
    await page.reload();
    expect(await page.locator('#step').isVisible()).toBe(true);
    await open('/trees/audio-hum/knob/');
    expect(await page.locator('#step').isVisible()).toBe(true);
    // Whether its mains parts are covered was not said, so that is asked where it counts.
    await open(openLive);
    await page.getByText('Is every mains part outside or covered?').waitFor();
    expect(await page.locator('#step').isVisible()).toBe(false);
  });

  it('a brick or batteries take the mains caution away; a mains lead into the case leaves no brick to ask about', async () => {
    const answers = '#lead-look=whole&earth-path=in&outside-try=stays&character=hum';
    for (const [words, isMains, next] of [
      ['Batteries or a brick feed it', false, /\/brick-swap\//u],
      ['Yes, and its mains lead goes into the case', true, /\/outside-look\//u],
    ] as const) {
      const { page, open } = await bench.visit(phone);
      await open(`/trees/audio-hum/knob/${answers}`);
      await page.getByRole('link', { name: words }).tap();
      expect(await page.locator('[data-caution="mains"]').isVisible()).toBe(isMains);
      await page.getByRole('link', { name: /^Sound goes, hum stays/u }).tap();
      await page.waitForURL(next);
    }
  });

  it('and of this unit on no other day, since its job holds it; of another unit again', async () => {
    const { page, open } = await bench.visit(phone);
    const question = page.getByText('Does its plate name your mains?');
    const mains = page.getByText('Is the mains supply in this case?');
    await open(shut);
    await passGates(page);
    await page.locator('a.outcome').first().tap();
    await page.locator('[data-job-kept]').waitFor();
    // Another day: another tab, in which the job is opened from the log.
    await page.evaluate(() => sessionStorage.clear());
    await open('/log/');
    await page.locator('[data-jobs] a').first().tap();
    await page.getByText('mains voltage and long storage settled').waitFor({ state: 'attached' });
    await open('/trees/audio-hum/knob/');
    await mains.waitFor();
    await passGates(page);
    expect(await page.locator('[data-caution="first-plug"]').isVisible()).toBe(false);
    expect(await page.locator('#step').isVisible()).toBe(true);

    await open('/log/#new');
    await page.getByRole('button', { name: 'Open the job' }).tap();
    await page.waitForURL('**/log/#job=*');
    await open('/trees/audio-hum/knob/');
    await question.waitFor();
    expect(await page.locator('#step').isVisible()).toBe(false);
  });
});

describe('a unit whose file says that it has no picture tube', () => {
  it('shows no caution of one', async () => {
    const { page, open } = await bench.visit(phone);
    const tube = page.locator('[data-caution="picture-tube-voltage"]');
    await open('/trees/audio-hum/outside-look/');
    // Unplugged and shut: in full above the check, which is not held back.
    await page.getByText('A picture tube keeps thousands of volts').waitFor();
    expect(await page.locator('#step').isVisible()).toBe(true);
    await open('/trees/audio-hum/outside-look/#unit=quillon-44');
    await tube.waitFor({ state: 'hidden' });
    expect(await page.locator('#step').isVisible()).toBe(true);
  });
});

describe.each(screens)('a step with power on and the case open, on %s', (_name, screen) => {
  it.each([
    ['by the reader', 'inside-bare', ''],
    ['by the unit', undefined, '#unit=quillon-44'],
    ['by the open job', undefined, 'job'],
  ] as const)(
    'is not for a unit with bare mains parts, said %s: handing over comes first, going on says what must be so',
    async (_by, said, fragment) => {
      const { page, open, remember } = await bench.visit(screen);
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
      // What is known is confirmed, not asked.
      await box.getByText('Mains parts are bare in this unit: not for this step. Is every one covered now?').waitFor();
      expect(await box.getByText('have someone competent cover it unplugged and discharged').isVisible()).toBe(true);
      expect(await box.locator('.gate a:visible').allTextContents()).toEqual([
        'Bare, or not sure: hand over',
        'Inside, and every mains part is covered',
      ]);
      expect(await page.locator('#step').isVisible()).toBe(false);
    },
  );

  it('asks again for a caution that was read with the case closed, and once only', async () => {
    const { page, open } = await bench.visit(screen);
    await open(shut);
    await passGates(page, hand(screen));
    expect(await page.locator('#step').isVisible()).toBe(true);
    await open('/trees/audio-hum/knob/');
    expect(await page.locator('#step').isVisible()).toBe(true);

    await open(openLive);
    const box = page.getByRole('region', { name: /^Danger: Mains/u });
    expect(await box.getByText('Is every mains part outside or covered?').isVisible()).toBe(true);
    expect(await page.locator('#step').isVisible()).toBe(false);
    await passGates(page, hand(screen));
    expect(await page.locator('#step').isVisible()).toBe(true);
    await page.reload();
    expect(await page.locator('#step').isVisible()).toBe(true);
    // Of its two dangers, mains and the scope's ground, the first was read and the second was not.
    await open('/trees/audio-hum/ripple-rate/');
    expect(await page.locator('[data-caution="mains"].read').count()).toBe(1);
    expect(await page.getByText(/^Has the scope passed its tests/u).isVisible()).toBe(true);
    // A meter does as well: without a scope its tests are not read, and a page that takes nothing but a scope asks all the same.
    expect(await page.getByText(/^Test 1, unplugged/u).isVisible()).toBe(false);
    await hand(screen).press(page.getByRole('link', { name: 'No scope is used' }));
    expect(await page.locator('#step').isVisible()).toBe(true);
    await page.reload();
    expect(await page.locator('#step').isVisible()).toBe(true);
    await open('/trees/audio-hum/amp-fuzz/');
    expect(await page.getByText(/^Test 1, unplugged/u).isVisible()).toBe(true);
    expect(await page.locator('#step').isVisible()).toBe(false);
    await hand(screen).press(page.getByRole('link', { name: 'No scope is used' }));
    expect(await page.locator('#step').isVisible()).toBe(true);
  });

  it('asks again where a unit with bare mains parts is chosen after it was answered for covered ones', async () => {
    const { page, open } = await bench.visit(screen);
    await open(openLive);
    await passGates(page, hand(screen));
    await open(`${openLive}#unit=quillon-44`);
    await page.getByText(/^Mains parts are bare in this unit/u).waitFor();
    await page.locator('#step').waitFor({ state: 'hidden' });
  });

  it('counts with the case closed too, where it is the first powered step', async () => {
    const { page, open } = await bench.visit(screen);
    await open(openLive);
    await passGates(page, hand(screen));
    expect(await page.locator('#step').isVisible()).toBe(true);
    await open(shut);
    expect(await page.locator('#step').isVisible()).toBe(true);
  });
});

describe.each(screens)('an answer that leads to a hand-over for safety, on %s', (_name, screen) => {
  const handOver = 'Mains lead or earth bad: hand over';
  const before = 'outside-try=stays&character=hum&brick-swap=stays';

  it.each(['2ohm', 'high'])(
    'holds on every page of the tree (%s), with the hand-over and a way to take it back',
    async (value) => {
      const { page, open, remember } = await bench.visit(screen);
      await remember('halfsplit.marks', 'first-plug mains');
      await open(`/trees/audio-hum/knob/#${before}&earth-path=${value}`);

      const notice = page.locator('.notices [data-road-end]');
      await notice.waitFor();
      const heading = await page.getByRole('heading', { level: 1 }).boundingBox();
      expect((await notice.boundingBox())?.y ?? 1e6).toBeLessThan(heading?.y ?? 0);
      expect(await notice.textContent()).toMatch(
        new RegExp(`^Your answer to “Does the earth reach the metal case\\?” ends this tree: ${handOver}\\.`, 'u'),
      );
      // What next goes no other way, and promises no repair.
      await page.locator('[data-likely] .step-on').waitFor();
      expect(await page.locator('[data-likely] .step-on').allTextContents()).toEqual([`The tree ends here${handOver}`]);
      expect(await page.locator('[data-minutes]').textContent()).toBe('');

      await notice.getByRole('link').click();
      await page.waitForURL(/\/earth-missing\/#/u);
      expect(new URL(page.url()).hash).toContain(`earth-path=${value}`);
      await page.goBack();
      await notice.getByRole('button', { name: 'Undo this answer' }).click();
      await notice.waitFor({ state: 'detached' });
      expect(new URL(page.url()).hash).toBe(`#${before}`);
    },
  );

  it.each(['earth-path=0.05ohm', 'outside-try=place'])(
    'is not every answer: %s lets the road go on',
    async (answer) => {
      const { page, open, remember } = await bench.visit(screen);
      await remember('halfsplit.marks', 'first-plug mains');
      await open(`/trees/audio-hum/knob/#${answer}`);
      await page.locator('[data-likely]:not([hidden])').waitFor();
      expect(await page.locator('[data-road-end]').count()).toBe(0);
    },
  );

  it('on the sheet of the hand-over itself neither repair nor minutes stand, and the link takes along what is known', async () => {
    const { page, open, remember } = await bench.visit(screen);
    await remember('halfsplit.marks', 'first-plug mains old-mains-lead');
    await open(`/trees/audio-hum/earth-missing/#${before}&earth-path=2ohm`);
    const next = page.locator('[data-likely]');
    await next.getByText('The tree ends here.').waitFor();
    // Nobody waits for minutes that lead nowhere: they are not counted.
    expect(page.workers()).toEqual([]);
    expect(await next.textContent()).not.toMatch(/repair on this page|proven repair/u);
    expect(await page.locator('[data-road-end]').count()).toBe(0);
    expect(new URL((await next.locator('a.step-on').getAttribute('href')) ?? '', page.url()).hash).toContain(
      'earth-path=2ohm',
    );
  });
});

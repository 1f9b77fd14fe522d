import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { countAnswers, editorOf, pasteOverAll, readMessages, waitForAnswer } from './drafting.ts';
import { findViolations, type Bench, desktop, useBench, phone, type Visit } from './open-browser.ts';

const file = 'content/trees/power/psu-5v-low.mdx';
const bench = useBench();

async function openDraft(options: Parameters<Bench['visit']>[0] = desktop): Promise<Visit> {
  const visit = await bench.visit(options);
  await visit.open('/draft/');
  await waitForAnswer(visit.page, 1);
  return visit;
}

async function startFromTree({ page }: Visit, slug: string): Promise<void> {
  const before = await countAnswers(page);
  await page.getByLabel('Start from', { exact: true }).selectOption(`tree/${slug}`);
  await page.getByRole('button', { name: 'Start', exact: true }).click();
  await waitForAnswer(page, before + 1);
}

async function download({ page }: Visit): Promise<{ readonly name: string; readonly bytes: Buffer }> {
  const [handed] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Download the file' }).click(),
  ]);
  return { name: handed.suggestedFilename(), bytes: readFileSync(await handed.path()) };
}

describe('a tree is drafted', () => {
  it('from one that exists: a line broken, answered beside it, mended; graph, phone, worth and the same bytes', async () => {
    const visit = await openDraft();
    const { page } = visit;
    await startFromTree(visit, 'psu-5v-low');
    expect(await page.getByText('No errors').isVisible()).toBe(true);

    await editorOf(page).focus();
    await page.keyboard.press('Control+Home');
    for (const key of ['ArrowDown', 'ArrowDown', 'End']) await page.keyboard.press(key);
    const before = await countAnswers(page);
    await page.keyboard.type('x');
    await waitForAnswer(page, before + 1);
    const [message = ''] = await readMessages(page);
    expect(message).toMatch(/^Line 3 Error\. Unexpected block `powerx`/u);
    expect(message).toContain('known-slugs');
    expect(await readMessages(page)).toHaveLength(1);
    await page.locator('[data-editor-host] .cm-lint-marker-error').first().waitFor();

    await page.getByRole('button', { name: 'Line 3' }).first().click();
    await page.keyboard.press('End');
    await page.keyboard.press('Backspace');
    await page.getByText('No errors').waitFor();

    await page.getByText('Decision graph', { exact: true }).click();
    const nodes = page.locator('[data-graph] svg [data-node]');
    await nodes.first().waitFor();
    const written = [
      ...readFileSync(file, 'utf8').matchAll(/^<(?:Check|Path|Cause|Elsewhere|HandOver) id="([a-z0-9-]+)"/gmu),
    ];
    expect(await nodes.evaluateAll((all) => all.map((node) => node.getAttribute('data-node')).toSorted())).toEqual(
      written.map(([, id]) => id).toSorted(),
    );

    const sheet = page.getByRole('region', { name: 'The step, can be scrolled' });
    await page.getByLabel('Step', { exact: true }).selectOption('rail-bare');
    await sheet.getByRole('heading', { name: '5 V at the farthest chip, all add-ons off?' }).waitFor();
    expect(await sheet.getByText('Danger', { exact: true }).count()).toBeGreaterThan(0);
    await sheet.getByRole('button', { name: /^Too high: I have unplugged it/u }).click();
    expect(await page.getByLabel('Step', { exact: true }).inputValue()).toBe('rail-too-high');

    await page.getByText('Worth of the tree').click();
    await page.getByText('Until a repair is proved').waitFor();

    const { name, bytes } = await download(visit);
    expect(name).toBe('psu-5v-low.mdx');
    expect(bytes.equals(readFileSync(file))).toBe(true);
  });

  it('and the phone shows the sheet that the cursor is in', async () => {
    const visit = await openDraft();
    const { page } = visit;
    await startFromTree(visit, 'psu-5v-low');
    await editorOf(page).focus();
    await page.keyboard.press('Control+End');
    await expect.poll(() => page.getByLabel('Step', { exact: true }).inputValue()).not.toBe('supply-kind');
    await page.keyboard.press('Control+Home');
    const [before = ''] = readFileSync(file, 'utf8').split('<Check id="supply-kind"');
    for (let line = 1; line <= before.split('\n').length; line += 1) await page.keyboard.press('ArrowDown');
    await expect.poll(() => page.getByLabel('Step', { exact: true }).inputValue()).toBe('supply-kind');
  });

  it('by keyboard: Tab goes into the editor and out of it again', async () => {
    const visit = await openDraft();
    const { page } = visit;
    await page.getByLabel('Name of the file').focus();
    await page.keyboard.press('Tab');
    expect(await editorOf(page).evaluate((element) => element.matches(':focus'))).toBe(true);
    await page.keyboard.press('Tab');
    expect(await editorOf(page).evaluate((element) => element.matches(':focus'))).toBe(false);
    expect(await editorOf(page).getAttribute('aria-label')).toContain('Tab leaves the editor');
  });

  it('from a finished repair that another page left, and the draft before it is set aside', async () => {
    const visit = await openDraft();
    const { page } = visit;
    await pasteOverAll(page, '---\ntitle: My own\n');
    await page.evaluate(
      ([key, seed]) => sessionStorage.setItem(key ?? '', seed ?? ''),
      [
        'halfsplit.draft-seed',
        JSON.stringify({
          title: 'Lamp <b>dim</b>',
          symptom: 'It glows {once}',
          steps: [{ title: 'Is the brick warm?', said: '<script>cold</script>' }],
          cause: 'Brick dead',
          repair: 'Another brick',
          proof: '5.0 V',
        }),
      ],
    );
    await page.reload();
    await waitForAnswer(page, 1);
    expect(await editorOf(page).textContent()).toContain('title: "Lamp <b>dim</b>"');
    expect((await readMessages(page)).filter((message) => /no-code|unknown-element|syntax/u.test(message))).toEqual([]);
    expect(await page.evaluate((key) => sessionStorage.getItem(key), 'halfsplit.draft-seed')).toBeNull();

    await page.getByLabel('Start from', { exact: true }).selectOption('previous/0');
    await page.getByRole('button', { name: 'Start', exact: true }).click();
    await page.getByRole('button', { name: 'Replace my draft' }).click();
    await expect.poll(() => editorOf(page).textContent()).toContain('title: My own');
  });
});

describe('a draft is not lost', () => {
  it('over a reload, under its name', async () => {
    const visit = await openDraft();
    const { page } = visit;
    await page.getByLabel('Name of the file').fill('no-sound');
    await pasteOverAll(page, '---\nblock: audio\n---\n');
    await page.reload();
    await waitForAnswer(page, 1);
    expect(await editorOf(page).textContent()).toContain('block: audio');
    expect(await page.getByLabel('Name of the file').inputValue()).toBe('no-sound');
    expect(await page.getByText('content/trees/audio/no-sound.mdx').isVisible()).toBe(true);
    expect((await download(visit)).name).toBe('no-sound.mdx');
  });

  it('to another start without asking, and Undo brings it back', async () => {
    const visit = await openDraft();
    const { page } = visit;
    await pasteOverAll(page, 'My words.');
    await page.getByLabel('Start from', { exact: true }).selectOption('tree/psu-5v-low');
    await page.getByRole('button', { name: 'Start', exact: true }).click();
    await page.getByRole('button', { name: 'Keep my draft' }).click();
    expect(await editorOf(page).textContent()).toBe('My words.');
    await page.getByRole('button', { name: 'Start', exact: true }).click();
    await page.getByRole('button', { name: 'Replace my draft' }).click();
    await page.getByText('No errors').waitFor();
    await editorOf(page).focus();
    await page.keyboard.press('Control+z');
    expect(await editorOf(page).textContent()).toBe('My words.');
  });

  it('to another tab, which says so and lets choose', async () => {
    const visit = await openDraft();
    const other = await visit.page.context().newPage();
    await other.goto('/draft/');
    await waitForAnswer(other, 1);
    await pasteOverAll(other, 'Of the other tab.');
    await visit.page.getByText('Another tab changed this draft.').waitFor();
    await pasteOverAll(visit.page, 'Of this tab.');
    // As when the page is left: what is kept now and then goes the same way.
    await visit.page.evaluate(() => window.dispatchEvent(new Event('pagehide')));
    expect(await other.evaluate(() => localStorage.getItem('halfsplit.draft.untitled'))).toBe('Of the other tab.');
    await visit.page.getByRole('button', { name: 'Use the other tab’s text' }).click();
    await expect.poll(() => editorOf(visit.page).textContent()).toBe('Of the other tab.');
    expect(await visit.page.locator('[data-previous] option').first().textContent()).toContain('untitled, 1 line');
  });

  it('where the browser keeps nothing: it is said, and the file can be taken', async () => {
    const visit = await bench.visit();
    await visit.page.addInitScript(() => {
      Object.defineProperty(window, 'localStorage', {
        get() {
          throw new DOMException('refused', 'SecurityError');
        },
      });
    });
    await visit.open('/draft/');
    await waitForAnswer(visit.page, 1);
    await pasteOverAll(visit.page, 'Kept by nobody.');
    await visit.page.getByText('This browser saves nothing for this page').waitFor();
    expect((await download(visit)).bytes.toString()).toBe('Kept by nobody.');
  });
});

describe('the drafting page', () => {
  it('reads without script: what it is, and how to contribute all the same', async () => {
    const visit = await bench.visit({ ...desktop, javaScriptEnabled: false });
    await visit.open('/draft/');
    expect(await visit.page.locator('noscript p', { hasText: 'The editor needs script' }).isVisible()).toBe(true);
    expect(await visit.page.getByRole('heading', { name: 'By post, without git' }).isVisible()).toBe(true);
    expect(await visit.page.locator('draft-sheet').isVisible()).toBe(false);
  });

  it('ends a reading that takes over a second, says so, and reads the next text', async () => {
    const visit = await bench.visit();
    const { page } = visit;
    // A worker that never comes back from a text that says so, in the place of the real one.
    await page.route(/draft-worker[^/]*\.js$/u, (route) =>
      route.fulfill({
        contentType: 'text/javascript',
        body: `addEventListener('message', ({ data }) => {
          if (data.kind === 'open') return postMessage({ kind: 'done' });
          while (data.question.text.includes('forever')) {}
          postMessage({ kind: 'checked', number: data.number, draft: { tree: undefined, problems: [], lineOfNode: new Map() } });
        });`,
      }),
    );
    await visit.open('/draft/');
    await waitForAnswer(page, 1);
    const start = Date.now();
    await pasteOverAll(page, 'forever');
    expect(Date.now() - start).toBeGreaterThan(900);
    expect(await readMessages(page)).toEqual([expect.stringContaining('This text takes too long to read')]);
    expect(await editorOf(page).textContent()).toBe('forever');
    await pasteOverAll(page, 'and on');
    expect(await readMessages(page)).toEqual([]);
  });

  it('has no violation that axe can find, with messages, graph and worth open', async () => {
    const visit = await openDraft(phone);
    const { page } = visit;
    await startFromTree(visit, 'psu-5v-low');
    await page.getByText('Decision graph', { exact: true }).click();
    await page.locator('[data-graph] svg').waitFor();
    await page.getByText('Worth of the tree').click();
    await page.getByText('Until a repair is proved').waitFor();
    await editorOf(page).focus();
    await page.keyboard.press('Control+Home');
    for (const key of ['ArrowDown', 'ArrowDown', 'End', 'x']) await page.keyboard.press(key);
    await page.getByRole('button', { name: 'Line 3' }).first().waitFor();
    expect(await findViolations(page)).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
  });
});

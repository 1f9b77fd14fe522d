import { readFileSync } from 'node:fs';
import { chromium, type Page } from 'playwright-core';
import { chromiumArguments, findChromium } from '../find-chromium.ts';
import { editorOf, pasteOverAll, waitForAnswer } from '../journeys/drafting.ts';
import { serveSite } from '../site/built-site.ts';
import { hostileTrees } from '../support/hostile-trees.ts';

/*
 * Part of npm run bench, on the built site: how long the drafting page takes from a key to its messages in a tree of 40
 * nodes (goal: 200 ms), and the longest that it stands still over a hostile text (goal: 1 s).
 */
const { address, stop } = await serveSite();
const browser = await chromium.launch({ executablePath: findChromium(), args: [...chromiumArguments] });
try {
  const page = await browser.newPage();
  page.on('dialog', (dialog) => void dialog.dismiss());
  await page.goto(`${address}/draft/`);
  await waitForAnswer(page, 1);
  await pasteOverAll(page, makeTreeOfForty());
  await page.keyboard.press('Control+Home');
  for (const key of ['ArrowDown', 'End']) await page.keyboard.press(key);
  const waited: number[] = [];
  for (let count = 0; count < 20; count += 1) waited.push(await typeAndWait(page));
  const sorted = waited.toSorted((one, other) => one - other);
  console.log(`key to messages, 40 nodes: median ${sorted[10]?.toFixed(0)} ms, most ${sorted.at(-1)?.toFixed(0)} ms`);

  await page.getByText('Decision graph', { exact: true }).click();
  const stalls: (readonly [name: string, milliseconds: number])[] = [];
  for (const { name, text } of hostileTrees) stalls.push([name, await measureStall(page, text.toWellFormed())]);
  const [longest] = stalls.toSorted(([, one], [, other]) => other - one);
  console.log(
    `${stalls.length} hostile texts: the page stood still for ${longest?.[1].toFixed(0)} ms, over “${longest?.[0]}”`,
  );
} finally {
  await browser.close();
  stop();
}

function makeTreeOfForty(): string {
  const shipped = readFileSync('content/trees/clock-reset/reset-stuck.mdx', 'utf8');
  const nodes = [...shipped.matchAll(/^<(?:Check|Path|Cause|Elsewhere|HandOver) /gmu)].length;
  const more = Array.from(
    { length: 40 - nodes },
    (_, index) =>
      `\n<HandOver id="more-${index}" title="More ${index}" because="licensed">\n\n  Stop here.\n</HandOver>\n`,
  );
  return shipped + more.join('');
}

/** Milliseconds from a key to the messages about the text with it. */
async function typeAndWait(page: Page): Promise<number> {
  await page.evaluate(() => {
    const sheet = document.querySelector('draft-sheet');
    if (sheet === null) return;
    sheet.removeAttribute('data-waited');
    document.addEventListener(
      'keydown',
      () => {
        const start = performance.now();
        const observer = new MutationObserver(() => {
          observer.disconnect();
          sheet.setAttribute('data-waited', String(performance.now() - start));
        });
        observer.observe(sheet, { attributeFilter: ['data-read'] });
      },
      { once: true, capture: true },
    );
  });
  await page.keyboard.press('y');
  const waited = await page.waitForFunction(
    () => document.querySelector('draft-sheet')?.getAttribute('data-waited') ?? undefined,
    undefined,
    { polling: 20 },
  );
  return Number(await waited.jsonValue());
}

/** The longest that the page could do nothing else while it answered a text, in milliseconds. */
async function measureStall(page: Page, text: string): Promise<number> {
  await page.evaluate(() => {
    let last = performance.now();
    let longest = 0;
    const timer = setInterval(() => {
      const now = performance.now();
      longest = Math.max(longest, now - last);
      last = now;
      document.documentElement.dataset['longest'] = String(longest);
    }, 20);
    setTimeout(() => clearInterval(timer), 20_000);
  });
  await pasteOverAll(page, text);
  await editorOf(page).waitFor();
  return Number(await page.locator('html').getAttribute('data-longest'));
}

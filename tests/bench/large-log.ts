import { chromium, type Page } from 'playwright-core';
import { printJobFile } from '#core/log/job-file.ts';
import { type EventDraft, stampEvents } from '#core/log/event.ts';
import { chromiumArguments, findChromium } from '../find-chromium.ts';
import { serveSite } from '../site/built-site.ts';

// Imports a job of 25,000 repairs into the built site in Chromium and loads the log with it; then the same with a result for each, the most that a file may hold.
const repairs = 25_000;
const runs = 3;

const drafts = Array.from({ length: repairs }, (): readonly EventDraft[] => [
  { kind: 'repair', tree: 'psu-5v-low', cause: 'regulator-dead', title: 'Regulator dead', tested: 'yes' },
  { kind: 'note', text: 'the same as before' },
]).flat();
const stamped = stampEvents([], 'large', drafts, {
  now: Date.parse('2026-01-31T12:00:00.000Z'),
  device: 'bench',
  counter: 0,
});
const events = stamped.map((event, index) => {
  if (index % 2 === 0) return event;
  const { id, job, at, device } = event;
  return { id, job, at, device, kind: 'result', repair: stamped[index - 1]?.id ?? '', result: 'same' } as const;
});
const bare = events.filter((_, index) => index % 2 === 0);

const { address: site, stop } = await serveSite();
const browser = await chromium.launch({ executablePath: findChromium(), args: [...chromiumArguments] });
try {
  for (const held of [bare, events])
    for (let run = 1; run <= runs; run += 1) {
      const file = printJobFile({ events: held, photos: [] }, '2026-01-31T12:00:00.000Z');
      const context = await browser.newContext({ serviceWorkers: 'block' });
      const page = await context.newPage();
      const empty = await load(page, '/log/', '[data-none]');
      const imported = await importFile(page, file);
      const list = await load(page, '/log/', '[data-jobs] a');
      const job = await load(page, '/log/#job=large', '[data-timeline] li');
      console.log(
        `${held.length} events, ${(file.length / 1e6).toFixed(1)} MB: imported in ${print(imported)}; main thread of the list ${print(list)}, of the job ${print(job)}, of an empty log ${print(empty)}`,
      );
      await context.close();
    }
} finally {
  await browser.close();
  stop();
}

/** Milliseconds from choosing the file to the sentence that says it was read. */
async function importFile(page: Page, file: string): Promise<number> {
  return page.evaluate(
    (text) =>
      new Promise<number>((resolve, reject) => {
        const input = document.querySelector<HTMLInputElement>('input[name="import"]');
        const notices = document.querySelector('[data-notices]');
        if (input === null || notices === null) return reject(new Error('This is not the page of the log.'));
        const chosen = new DataTransfer();
        chosen.items.add(new File([text], 'log.json', { type: 'application/json' }));
        const start = performance.now();
        new MutationObserver(() => {
          if (notices.textContent?.startsWith('Read:')) resolve(performance.now() - start);
        }).observe(notices, { childList: true, subtree: true });
        input.files = chosen.files;
        input.dispatchEvent(new Event('change', { bubbles: true }));
      }),
    file,
  );
}

/** Milliseconds that the main thread works from the opening of a page until it shows what it was opened for. */
async function load(page: Page, address: string, shown: string): Promise<number> {
  await page.goto('about:blank');
  const client = await page.context().newCDPSession(page);
  await client.send('Performance.enable');
  const read = async (): Promise<number> => {
    const { metrics } = await client.send('Performance.getMetrics');
    return 1000 * (metrics.find(({ name }) => name === 'TaskDuration')?.value ?? 0);
  };
  await page.goto(`${site}${address}`);
  await page.locator(shown).first().waitFor({ state: 'attached' });
  await page.evaluate(() => new Promise((resolve) => setTimeout(resolve, 500)));
  const spent = await read();
  await client.detach();
  return spent;
}

function print(milliseconds: number): string {
  return `${milliseconds.toFixed(0)} ms`;
}

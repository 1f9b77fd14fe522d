/**
 * npm run bench, its pages: node tests/bench/pages.ts [runs]. Measures the built site on a static server with gzip:
 * Lighthouse with its mobile profile, once each kind of page and as often as is asked, the median of each figure;
 * then, in Chromium with its processor slowed four times and the site stored for offline use, milliseconds from a press or a key to the
 * next paint, by the Event Timing interface (which rounds to 8 ms), and from the press of an answer to the first paint of the next step.
 */
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium } from 'playwright-core';
import lighthouse from 'lighthouse';
import { chromiumArguments, findChromium } from '../find-chromium.ts';
import { phone } from '../journeys/open-browser.ts';
import { passGates } from '../journeys/hands.ts';
import { waitUntilStored } from '../journeys/offline/open-kept-browser.ts';
import { startStaticSite } from '../support/static-site.ts';

const runs = Number(process.argv[2] ?? 3);
const debuggingPort = 9333;

const pages = [
  ['home', '/', 900],
  ['tree', '/trees/audio-hum/', 900],
  ['check', '/trees/audio-hum/supply-look/', 900],
  ['cause', '/trees/audio-hum/reservoir-dry/', 900],
  ['target', '/targets/rail-5v-at-chip/', 900],
  ['caution', '/cautions/mains/', 900],
  ['unit', '/units/quillon-44/', 900],
  ['part', '/parts/78xx/', 900],
  ['log', '/log/', 1000],
  ['drafting', '/draft/', 1000],
] as const;

interface Figures {
  readonly performance: number;
  readonly paint: number;
  readonly shift: number;
  readonly blocking: number;
}

async function judge(url: string): Promise<Figures> {
  const result = await lighthouse(url, { port: debuggingPort, onlyCategories: ['performance'], logLevel: 'silent' });
  const report = result?.lhr;
  if (report?.runtimeError !== undefined) throw new Error(`${url}: ${report.runtimeError.message}`);
  const numberOf = (audit: string): number => report?.audits[audit]?.numericValue ?? Number.NaN;
  return {
    performance: report?.categories['performance']?.score ?? Number.NaN,
    paint: numberOf('largest-contentful-paint'),
    shift: numberOf('cumulative-layout-shift'),
    blocking: numberOf('total-blocking-time'),
  };
}

function median(numbers: readonly number[]): number {
  return numbers.toSorted((one, other) => one - other)[Math.floor(numbers.length / 2)] ?? Number.NaN;
}

// What this machine takes for any page.
const bareFolder = mkdtempSync(join(tmpdir(), 'halfsplit-bare-'));
writeFileSync(
  join(bareFolder, 'index.html'),
  '<!doctype html><html lang="en"><meta name="viewport" content="width=device-width"><title>Bare</title><h1>Bare</h1></html>',
);
const bare = await startStaticSite(bareFolder);
const site = await startStaticSite('dist');
const browser = await chromium.launch({
  executablePath: findChromium(),
  args: [...chromiumArguments, `--remote-debugging-port=${debuggingPort}`],
});
try {
  console.log(
    `\nLighthouse, mobile profile, median of ${runs}: performance, largest paint ms (goal), shift, blocked ms`,
  );
  const addresses = [
    ['a bare page', `${bare.address}/`, 750] as const,
    ...pages.map(([name, path, goal]) => [name, site.address + path, goal] as const),
  ];
  for (const [name, address, goal] of addresses) {
    const found: Figures[] = [];
    for (let run = 0; run < runs; run += 1) found.push(await judge(address));
    const of = (key: keyof Figures): number => median(found.map((figures) => figures[key]));
    console.log(
      `${name.padEnd(12)} ${of('performance').toFixed(2)}  ${of('paint').toFixed(0).padStart(5)} (${goal})  ${of('shift').toFixed(3)}  ${of('blocking').toFixed(0)}`,
    );
  }
  await measurePresses();
} finally {
  await browser.close();
  await bare.goDown();
  await site.goDown();
}

/** Works one step again and again as a thumb does: gates, menu, readings right and wrong, key by key, then an answer. */
async function measurePresses(): Promise<void> {
  const rounds = 10;
  const slowedTimes = 4;
  const context = await browser.newContext({ ...phone, baseURL: site.address });
  const page = await context.newPage();
  await page.addInitScript(() => {
    const waits: number[] = [];
    Object.assign(globalThis, { waits });
    // Several events of one press share its number; the longest of them is what a person waits for. Under 16 ms none is told.
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries() as (PerformanceEntry & { interactionId: number })[]) {
        if (entry.interactionId > 0)
          waits[entry.interactionId] = Math.max(waits[entry.interactionId] ?? 0, entry.duration);
      }
    }).observe({ type: 'event', durationThreshold: 16 } as PerformanceObserverInit);
    addEventListener('click', () => sessionStorage.setItem('pressed', String(Date.now())), { capture: true });
  });
  await page.goto('/');
  await waitUntilStored(page);
  const session = await context.newCDPSession(page);
  await session.send('Emulation.setCPUThrottlingRate', { rate: slowedTimes });
  const shown: number[] = [];
  const steps: number[] = [];
  for (let round = 0; round < rounds; round += 1) {
    await page.goto('/trees/psu-5v-low/rail-bare/');
    await page.evaluate(() => sessionStorage.clear());
    await page.reload();
    const field = page.locator('reading-field input').first();
    await page.waitForTimeout(500);
    await passGates(page);
    await page.getByRole('button', { name: 'Menu' }).tap();
    await page.keyboard.press('Escape');
    for (const reading of ['4.71', '5.02', '4,9x', '47', '0.3']) {
      await field.fill('');
      await field.pressSequentially(reading, { delay: 120 });
    }
    await page.waitForTimeout(300);
    const { waits, count } = await page.evaluate(() => ({
      waits: (Reflect.get(globalThis, 'waits') as number[]).filter((wait) => wait > 0),
      count: (performance as Performance & { readonly interactionCount: number }).interactionCount,
    }));
    shown.push(...waits, ...Array.from({ length: Math.max(0, count - waits.length) }, () => 16));
    await page.locator('a.outcome[data-answers=low]').first().tap();
    await page.waitForURL((url) => !url.pathname.endsWith('/rail-bare/'));
    await page.waitForTimeout(700);
    steps.push(
      await page.evaluate(
        () =>
          performance.timeOrigin +
          (performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? Number.NaN) -
          Number(sessionStorage.getItem('pressed')),
      ),
    );
  }
  await context.close();
  const at = (times: readonly number[], share: number): string =>
    (times.toSorted((one, other) => one - other)[Math.floor(share * times.length)] ?? Number.NaN).toFixed(0);
  console.log(`\nProcessor slowed ${slowedTimes} times, milliseconds, median / 95th (goal 50):`);
  console.log(`press or key to the next paint, ${shown.length} of them   ${at(shown, 0.5)} / ${at(shown, 0.95)}`);
  console.log(`answer to the next step, ${steps.length} of them           ${at(steps, 0.5)} / ${at(steps, 0.95)}`);
}

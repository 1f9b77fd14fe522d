/**
 * npm run bench, its pages: node tests/bench/pages.ts [runs]. Measures the built site on a static server with gzip:
 * Lighthouse with its mobile profile, once each kind of page and as often as is asked, the median of each figure;
 * then, in Chromium with its processor slowed four times, milliseconds from a press to what it shows.
 */
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium } from 'playwright-core';
import lighthouse from 'lighthouse';
import { chromiumArguments, findChromium } from '../find-chromium.ts';
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
} finally {
  await browser.close();
  await bare.goDown();
  await site.goDown();
}

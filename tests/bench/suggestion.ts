/**
 * Milliseconds for one suggestion with 200 causes and 300 checks in Chromium, its processor slowed four times: node tests/bench/suggestion.ts
 */
import { readFileSync } from 'node:fs';
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium } from 'playwright-core';
import { build } from 'vite';
import { chromiumArguments, findChromium } from '../find-chromium.ts';

const slowedTimes = 4;
const runs = 60;
const shapes = [
  { causeCount: 20, checkCount: 30, setupCount: 4, goal: 'repair', isCrisp: false },
  { causeCount: 200, checkCount: 300, setupCount: 4, goal: 'repair', isCrisp: true },
  { causeCount: 200, checkCount: 300, setupCount: 4, goal: 'repair', isCrisp: false },
] as const;

const folder = mkdtempSync(join(tmpdir(), 'suggestion-'));
await build({
  configFile: false,
  logLevel: 'error',
  build: {
    outDir: folder,
    lib: { entry: 'tests/bench/suggestion-page.ts', formats: ['iife'], name: 'bench', fileName: () => 'bench.js' },
  },
});
const script = readFileSync(join(folder, 'bench.js'), 'utf8');
const browser = await chromium.launch({ executablePath: findChromium(), args: [...chromiumArguments] });
try {
  const page = await browser.newPage();
  const session = await page.context().newCDPSession(page);
  await page.addScriptTag({ content: script });
  await session.send('Emulation.setCPUThrottlingRate', { rate: slowedTimes });
  console.log(
    `\nMilliseconds for one suggestion in Chromium, processor slowed ${slowedTimes} times (first, median, 95th of ${runs})`,
  );
  for (const shape of shapes) {
    const times = await page.evaluate(`bench.measureSuggestions(7, ${JSON.stringify(shape)}, ${runs})`);
    if (!isNumbers(times)) throw new Error('no times came back');
    const sorted = times.toSorted((one, other) => one - other);
    const at = (share: number): string => (sorted[Math.floor(share * sorted.length)] ?? Number.NaN).toFixed(2);
    console.log(
      `${shape.causeCount}x${shape.checkCount} ${shape.isCrisp ? '0/1' : 'unreliable'}`.padEnd(24),
      `${(times[0] ?? Number.NaN).toFixed(2)} / ${at(0.5)} / ${at(0.95)}`,
    );
  }
} finally {
  await browser.close();
}

function isNumbers(value: unknown): value is readonly number[] {
  return Array.isArray(value) && value.every((item) => typeof item === 'number');
}

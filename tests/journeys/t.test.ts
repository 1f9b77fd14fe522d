import { it } from 'vitest';
import { writeFileSync } from 'node:fs';
import { desktop, openBench, phone } from './open-browser.ts';
it('looks', async () => {
  const bench = await openBench();
  for (const [name, size, colorScheme] of [['d', desktop, 'light'], ['dd', desktop, 'dark'], ['p', phone, 'light'], ['pd', phone, 'dark']] as const) {
    const visit = await bench.visit({ ...size, colorScheme });
    await visit.open('/draft/');
    await visit.page.waitForSelector('draft-sheet[data-read="1"]', { timeout: 15000 });
    await visit.page.selectOption('[data-start]', 'tree/psu-5v-low');
    await visit.page.click('[data-begin]');
    await visit.page.waitForTimeout(1500);
    await visit.page.click('[data-graph] summary');
    await visit.page.waitForTimeout(1500);
    await visit.page.screenshot({ path: `/tmp/s-${name}.png`, fullPage: true });
    console.log(name, visit.faults, await visit.page.textContent('[data-say="count"]'), await visit.page.evaluate(() => document.documentElement.scrollWidth));
    await visit.end();
  }
  await bench.close();
}, 120000);

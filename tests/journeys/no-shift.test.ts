import { expect, it } from 'vitest';
import { kindsOfPage } from '../support/kinds-of-page.ts';
import { phone, useBench } from './open-browser.ts';

const bench = useBench();

// Layout Instability (W3C Community Group): what moves by itself, as a share of the window; up to 0.1 counts as good, this is a fifth of it.
const mostMoved = 0.02;
const atOnce = 4;

it('next to nothing moves on a page of any kind when its script comes late', async () => {
  const look = async (places: readonly string[]): Promise<readonly string[]> => {
    const { page, open, end } = await bench.visit({ ...phone, serviceWorkers: 'block' });
    await page.addInitScript(() => {
      const moved: number[] = [];
      Object.assign(globalThis, { moved });
      new PerformanceObserver((list) => {
        for (const entry of list.getEntries()) moved.push(Number(Reflect.get(entry, 'value')));
      }).observe({ type: 'layout-shift', buffered: true });
    });
    // gate.js is waited for by the page itself.
    await page.route(/(?<!gate)\.js(?:on)?$/u, async (route) => {
      await new Promise((resolve) => setTimeout(resolve, 150));
      await route.continue();
    });
    const found: string[] = [];
    for (const place of places) {
      await open(place);
      await page.waitForLoadState('networkidle');
      const sum = await page.evaluate(() => (Reflect.get(globalThis, 'moved') as number[]).reduce((a, b) => a + b, 0));
      if (sum > mostMoved) found.push(`${place}: ${sum.toFixed(3)}`);
    }
    await end();
    return found;
  };
  const shares = Array.from({ length: atOnce }, (_, share) =>
    kindsOfPage.filter((_place, index) => index % atOnce === share),
  );
  expect((await Promise.all(shares.map(look))).flat()).toEqual([]);
});

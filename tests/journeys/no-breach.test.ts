import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { kindsOfPage as kinds } from '../support/kinds-of-page.ts';
import { type Bench, desktop, useBench } from './open-browser.ts';

/*
 * Chromium knows Trusted Types (W3C Trusted Types, 4; Content Security Policy Level 3). A visit counts every breach of the policy
 * and every error of the console from before the first script on, and its test fails if it ends with one.
 */
const bench = useBench();

const harm = '4.71 <img src=x onerror=alert(1)>';

/** Opens every part that opens, types into every field and presses every button, more than once where that shows more. */
async function pressAll(page: Page): Promise<number> {
  let pressed = 0;
  for (let round = 0; round < 2; round += 1) {
    pressed += await page.evaluate(async (text) => {
      const pause = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 20));
      const seen = <T extends Element>(selector: string): readonly T[] =>
        [...document.querySelectorAll<T>(selector)].filter((element) => element.checkVisibility()).slice(0, 60);
      for (const part of seen<HTMLDetailsElement>('details')) part.open = true;
      for (const field of seen<HTMLInputElement | HTMLTextAreaElement>(
        'input[type=text], input[type=search], textarea',
      )) {
        field.focus();
        field.value = text;
        field.dispatchEvent(new InputEvent('input', { bubbles: true }));
        field.dispatchEvent(new Event('change', { bubbles: true }));
      }
      const buttons = seen<HTMLButtonElement>('button:not([type=submit], [disabled])');
      for (const button of buttons) {
        button.click();
        await pause();
      }
      return buttons.length;
    }, harm);
  }
  await page.waitForLoadState('networkidle');
  return pressed;
}

describe('the policy of the pages', () => {
  it('finds at least thirty kinds of page in the built site', () => {
    expect(kinds.length).toBeGreaterThanOrEqual(30);
    for (const place of ['/', '/404.html', '/log/', '/draft/', '/trees/', '/hand-over/', '/pictures/']) {
      expect(kinds).toContain(place);
    }
  });

  it.each(kinds)('is not breached, and no error is told, whatever is pressed on %s', async (place) => {
    const { page, open, faults } = await visit();
    await open(place);
    await pressAll(page);

    expect(await page.locator('img[src=x]').count()).toBe(0);
    expect(faults).toEqual([]);
  });

  it('lets the workers of search, minutes and drafting start, and the drawings of a step and of a draft be read', async () => {
    const { page, open } = await visit();
    const started: string[] = [];
    page.on('worker', (worker) =>
      started.push(/_astro\/([a-z-]+)-[\w-]+\.js/u.exec(worker.url())?.[1] ?? worker.url()),
    );
    await open('/');
    await page.getByRole('combobox').fill('flopy disk wont reed');
    await page.getByRole('option').first().waitFor();
    await open('/trees/psu-5v-low/brick-label/#supply-kind=brick');
    await page.locator('.neighbourhood svg').waitFor({ state: 'attached' });
    await expect.poll(() => started).toContain('price-worker');
    await open('/draft/');
    await page.getByText('Decision graph', { exact: true }).click();
    await page.locator('[data-graph-place] svg').waitFor({ state: 'attached' });

    expect([...new Set(started)].sort()).toEqual(['draft-worker', 'price-worker', 'search-worker']);
  });

  it('counts what it forbids: a script written into the page, markup from text, a handler, a worker, another policy', async () => {
    const { page, open, faults, end } = await bench.visit(desktop, /./u);
    await open('/trees/');
    const refused = await page.evaluate(() => {
      const harms: readonly (() => void)[] = [
        () => document.body.append(Object.assign(document.createElement('script'), { text: 'window.hostileRan = 1' })),
        () => {
          document.body.innerHTML = '<img src="x" onerror="window.hostileRan = 1">';
        },
        () => document.body.setAttribute('onclick', 'window.hostileRan = 1'),
        () => void new Worker('/gate.js'),
        () => void new DOMParser().parseFromString('<b></b>', 'text/html'),
        () => void Reflect.get(window, 'trustedTypes').createPolicy('another', {}),
      ];
      return harms.filter((harm) => {
        try {
          harm();
          return false;
        } catch (error) {
          return error instanceof TypeError;
        }
      }).length;
    });
    expect(refused).toBe(6);
    await expect
      .poll(() => faults.filter((fault) => fault.includes('Policy breached')).length)
      .toBeGreaterThanOrEqual(6);
    expect(await page.evaluate(() => Reflect.get(window, 'hostileRan'))).toBeUndefined();
    await end();
  });
});

function visit(): ReturnType<Bench['visit']> {
  return bench.visit({ ...desktop, permissions: ['clipboard-read', 'clipboard-write'] });
}

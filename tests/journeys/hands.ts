import type { Locator, Page } from 'playwright-core';

/** How a visitor works a page: with a thumb, or with the keyboard and nothing else. */
export interface Hands {
  /** Presses a link, button or summary that the visitor can reach. */
  readonly press: (thing: Locator) => Promise<void>;
}

/** A thumb on the glass. */
export const thumb: Hands = {
  press: (thing) => thing.tap(),
};

/** Tab until the focus is there, then Enter: what cannot be reached so counts as not there. */
export const keyboard: Hands = {
  press: async (thing) => {
    await reachByTab(thing);
    await thing.page().keyboard.press('Enter');
  },
};

/** Answers what each danger asks before its step, as a reader does whose mains parts are covered. */
export async function passGates(page: Page, { press }: Hands = thumb): Promise<void> {
  const gate = page.locator('.gate-now');
  while ((await gate.count()) > 0) {
    const covered = gate.getByRole('link', { name: /every mains part is covered$/u });
    await press((await covered.count()) > 0 ? covered : gate.locator('[data-acknowledge]').first());
  }
}

/** Moves the focus forward with Tab until it is on `thing`; fails after 300 steps. */
export async function reachByTab(thing: Locator): Promise<void> {
  await thing.waitFor({ state: 'visible' });
  const page = thing.page();
  for (let step = 0; step < 300; step += 1) {
    if (await thing.evaluate((element) => element === document.activeElement)) return;
    await page.keyboard.press('Tab');
  }
  throw new Error(`The keyboard does not reach ${thing}.`);
}

/** The answers of “Path so far”, as `title: answer`, in order, once they are told in the sheet's own sentences. */
export async function readPathSoFar(page: Page): Promise<readonly string[]> {
  await page.locator('[data-walked][data-told], [data-walked]:has(.hint)').first().waitFor({ state: 'attached' });
  return page
    .locator('[data-walked] li:not(.hint)')
    .evaluateAll((items) =>
      items.map(
        (item) =>
          `${item.querySelector('a')?.textContent?.trim() ?? ''}: ${item.querySelector('b')?.textContent?.trim() ?? ''}`,
      ),
    );
}

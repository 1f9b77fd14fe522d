import type { Locator, Page } from 'playwright-core';

/** The drafting page's editor; its shadow root is open to Playwright as to a screen reader. */
export function editorOf(page: Page): Locator {
  return page.locator('[data-editor-host] .cm-content');
}

/** Waits until the text as it stands has been read and answered, `count` times since the page was opened. */
export async function waitForAnswer(page: Page, count: number): Promise<void> {
  await page.waitForFunction(
    (least) => Number(document.querySelector('draft-sheet')?.getAttribute('data-read') ?? '0') >= least,
    count,
    { timeout: 30_000, polling: 20 },
  );
}

export async function countAnswers(page: Page): Promise<number> {
  return Number((await page.locator('draft-sheet').getAttribute('data-read')) ?? '0');
}

/** Pastes over all that stands in the editor, as the clipboard does, and waits for the answer. */
export async function pasteOverAll(page: Page, text: string): Promise<void> {
  const before = await countAnswers(page);
  await editorOf(page).focus();
  await page.keyboard.press('Control+a');
  await editorOf(page).evaluate((element, pasted) => {
    const clipboardData = new DataTransfer();
    clipboardData.setData('text/plain', pasted);
    element.dispatchEvent(new ClipboardEvent('paste', { clipboardData, bubbles: true, cancelable: true }));
  }, text);
  await waitForAnswer(page, before + 1);
}

/** The messages in the list, as `Line 3: Error. Unexpected …`. */
export async function readMessages(page: Page): Promise<readonly string[]> {
  return page
    .locator('[data-messages] li:not(.rest)')
    .evaluateAll((items) => items.map((item) => (item.textContent ?? '').replace(/\s+/gu, ' ').trim()));
}

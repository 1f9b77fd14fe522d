import { describe, expect, it } from 'vitest';
import { desktop, phone, useBench } from './open-browser.ts';

const bench = useBench();

// Misspelt, in a hurry, and written for this test.
const misspelt = [
  ['scren ful of randm leters', '/trees/dram-garbage/'],
  ['fuze blows evry time', '/trees/psu-fuse-blows/'],
  ['flopy wont reed any disk', '/trees/floppy-no-read/'],
  ['keybord row dosnt work', '/trees/keyboard-dead-row/'],
] as const;

describe('search', () => {
  it.each(misspelt)('on a phone, “%s” has %s first, one tap away', async (words, tree) => {
    const visit = await bench.visit(phone);
    await visit.open('/');
    const box = visit.page.getByRole('combobox');
    await box.tap();
    await box.fill(words);
    // Misspelt words are corrected beside the page; what they change follows within a moment.
    await visit.page.locator(`[role="option"]:first-child[href^="${tree}"]`).tap();
    await visit.page.waitForURL(`**${tree}**`);
  });

  it('by keyboard alone: typed words, arrow down, Enter opens the tree', async () => {
    const visit = await bench.visit(desktop);
    await visit.open('/');
    await visit.page.getByRole('combobox').focus();
    await visit.page.keyboard.type('no picture but it beeps');
    await visit.page.getByRole('option').first().waitFor();
    await visit.page.keyboard.press('ArrowDown');
    const active = await visit.page.getByRole('combobox').getAttribute('aria-activedescendant');
    expect(active).not.toBeNull();
    await visit.page.keyboard.press('Enter');
    await visit.page.waitForURL('**/trees/video-none/**');
  });

  it('what fits nothing says so and leaves the blocks; what is lethal answers with a stop', async () => {
    const visit = await bench.visit(phone);
    await visit.open('/');
    const box = visit.page.getByRole('combobox');
    await box.fill('zebra wedding lawn');
    await visit.page
      .getByText(/No tree fits these words|Not in these pages/u)
      .first()
      .waitFor();
    expect(await visit.page.getByRole('option').count()).toBe(0);
    expect(await visit.page.getByRole('navigation', { name: 'Trees by where the fault is' }).isVisible()).toBe(true);
    await box.fill('microwave oven dead');
    await visit.page.getByText(/^Stop/u).first().waitFor();
  });

  it.each([
    ['ten thousand letters', 'x'.repeat(10_000)],
    ['pictures', '🔥🔧💾'.repeat(40)],
    ['writing from right to left', 'שלום עולם مرحبا'],
    ['HTML', '<img src=x onerror=alert(1)><script>alert(2)</script>'],
  ])('%s breaks nothing and puts nothing into the page', async (_name, words) => {
    const visit = await bench.visit(phone);
    await visit.open('/');
    await visit.page.getByRole('combobox').fill(words);
    // Said to a screen reader: the answer is complete.
    await visit.page.locator('[data-status][aria-live="polite"]:not(:empty)').waitFor();
    expect(await visit.page.locator('main img, main script:not([type="module"])').count()).toBe(0);
  });

  it('a link with ?q= fills the box and runs', async () => {
    const visit = await bench.visit(phone);
    await visit.open('/?q=fuse%20blows');
    await visit.page.getByRole('option').first().waitFor();
    expect(await visit.page.getByRole('combobox').inputValue()).toBe('fuse blows');
  });
});

import { describe, expect, it } from 'vitest';
import { loadLibrary } from '#build/library.ts';
import { desktop, phone, useBench } from '../journeys/open-browser.ts';

const { circuits, points } = loadLibrary();
const bench = useBench();

describe('the page of a circuit', () => {
  it.each([...circuits.values()].map((circuit) => [circuit.slug, circuit] as const))(
    '%s has its drawing with a flag for every lead, each leading to the table of its point, and fits a telephone',
    async (slug, circuit) => {
      const { page, open } = await bench.visit(phone);
      await open(`/circuits/${slug}/`);
      const flags = await page
        .getByRole('group', { name: 'Drawing of the circuit' })
        .getByRole('link')
        .evaluateAll((links) =>
          links.map((link) => {
            const address = link.getAttribute('href') ?? '';
            const { width, height } = link.getBoundingClientRect();
            return {
              name: link.getAttribute('aria-label'),
              number: link.textContent,
              table: document.querySelector(address)?.parentElement?.querySelector('table') !== null,
              title: document.querySelector(address)?.textContent ?? '',
              least: Math.min(width, height),
            };
          }),
        );
      const wanted = Object.entries(circuit.points).flatMap(([point, { black }], index) =>
        (black === '0' ? ['red'] : ['red', 'black']).map((lead) => ({ point, lead, number: index + 1 })),
      );

      expect(flags.map(({ name }) => name)).toEqual(
        wanted.map(({ point, lead, number }) => `Point ${number}, ${lead} lead: ${points.get(point)?.title}`),
      );
      wanted.forEach(({ point, number }, index) => {
        expect(flags[index]?.number).toBe(String(number));
        expect(flags[index]?.table).toBe(true);
        expect(flags[index]?.title).toContain(`${number} ${points.get(point)?.title}`);
        // WCAG 2.2, 2.5.8: a target is at least 24 CSS pixels wide and high.
        expect(flags[index]?.least).toBeGreaterThanOrEqual(24);
      });
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(390);
    },
  );

  it('leads from a flag to its table by touch', async () => {
    const { page, open } = await bench.visit(phone);
    await open('/circuits/supply-7805/');
    await page.getByRole('link', { name: 'Point 4, red lead: Regulator output leg' }).tap();

    await page.waitForURL('**/circuits/supply-7805/#regulator-out');
    await expect.poll(async () => (await page.locator('#regulator-out').boundingBox())?.y).toBeLessThan(200);
  });

  it('carries drawing, words of the drawing, tables and netlist on paper', async () => {
    const { page, open } = await bench.visit(desktop);
    await open('/circuits/supply-7805/');
    await page.emulateMedia({ media: 'print' });

    expect(await page.getByRole('group', { name: 'Drawing of the circuit' }).isVisible()).toBe(true);
    expect(await page.getByText('C1: polarised capacitor, 4700\u00a0µF').isVisible()).toBe(true);
    expect(await page.locator('table').first().isVisible()).toBe(true);
  });
});

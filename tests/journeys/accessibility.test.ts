import { beforeAll, describe, expect, it } from 'vitest';
import { readContrast } from './read-contrast.ts';
import { findViolations, phone, useBench, type Visit } from './open-browser.ts';

const schemes = ['light', 'dark'] as const;
const kinds: readonly (readonly [name: string, path: string, read: string])[] = [
  ['home', '/', ''],
  ['tree', '/trees/psu-5v-low/', ''],
  ['check', '/trees/psu-5v-low/supply-kind/#supply-kind=iron', ''],
  ['check under a stop caution', '/trees/psu-5v-low/rail-bare/', ''],
  ['check, its caution read', '/trees/psu-5v-low/rail-bare/#supply-kind=iron&nonsense=1', 'mains'],
  ['signal path', '/trees/audio-silent/to-speaker/', 'mains'],
  ['cause', '/trees/psu-5v-low/voltage-lost/', 'mains'],
  ['elsewhere', '/trees/psu-5v-low/rail-gone/', 'mains'],
  ['end of the road', '/trees/psu-5v-low/switch-mode-supply/', 'mains'],
  ['target', '/targets/rail-5v-at-chip/', ''],
  ['targets', '/targets/', ''],
  ['caution', '/cautions/mains/', ''],
  ['cautions', '/cautions/', ''],
  ['unit', '/units/quillon-44/', ''],
  ['units', '/units/', ''],
  ['parts', '/parts/', ''],
  ['part', '/parts/d-sub-9-serial/', ''],
  ['pictures', '/pictures/', ''],
  ['circuit', '/circuits/supply-7805/', ''],
  ['reference', '/guide/reference/', ''],
  ['marking and part', '/guide/part/#reservoir', ''],
  ['check with pictures', '/trees/psu-ripple/ripple-rate/', 'mains'],
  ['hand-over', '/hand-over/#psu-5v-low/supply-kind=iron', ''],
  ['draft', '/draft/', ''],
  ['no such page', '/no-such-page/', ''],
];

const bench = useBench();

describe('WCAG 2.2 A and AA as far as axe can judge, light and dark', () => {
  let visit: Visit;
  beforeAll(async () => {
    // One of the pages is the one for dead addresses.
    visit = await bench.visit(phone, /status of 404/u);
  });

  it.each(kinds)('no violation: %s', async (_name, path, read) => {
    await visit.open('/hand-over/');
    await visit.page.evaluate((slugs) => sessionStorage.setItem('halfsplit.marks', slugs), read);
    await visit.open(path);

    expect(await findViolations(visit.page)).toEqual([]);
  });
});

describe.each(schemes)('in bright sun and in the dark, %s', (colorScheme) => {
  it('targets, readings and verdicts stand out 7 to 1 at least', async () => {
    const visit = await bench.visit({ ...phone, colorScheme });
    await visit.remember('halfsplit.marks', 'first-plug mains scope-ground charged-capacitor');
    await visit.open('/trees/psu-5v-low/rail-bare/#supply-kind=iron');
    await visit.page.getByLabel('Reading', { exact: true }).fill('4.52');
    await visit.page.getByText(/^Low\. 4\.52/u).waitFor();
    const check = await readContrast(
      visit.page.locator('.nominal, .limits, reading-field input, reading-field [role="status"], reading-field button'),
    );
    await visit.open('/trees/audio-silent/to-speaker/');
    const stages = await readContrast(visit.page.locator('.stages .nominal, .stages input, .marks button'));

    expect(check.map(({ text }) => text)).toEqual(expect.arrayContaining(['4.52', expect.stringMatching(/^Low\./u)]));
    expect(check.some(({ text }) => /5\s?V/u.test(text))).toBe(true);
    expect(stages.length).toBeGreaterThan(10);
    expect([...check, ...stages].filter(({ ratio }) => ratio < 7)).toEqual([]);
  });
});

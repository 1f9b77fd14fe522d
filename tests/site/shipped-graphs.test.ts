import { beforeAll, describe, expect, it } from 'vitest';
import { loadLibrary } from '#build/library.ts';
import { useBench, type Visit } from '../journeys/open-browser.ts';
import { measureGraphLabels } from './graph-labels.ts';

const trees = [...loadLibrary().trees.values()];
const bench = useBench();
let visit: Visit;

beforeAll(async () => {
  visit = await bench.visit({ viewport: { width: 2000, height: 1200 } });
});

describe('graphs of the shipped trees, measured in Chromium on the built pages', () => {
  it('are there for all fifteen trees or more', () => {
    expect(trees.length).toBeGreaterThanOrEqual(15);
  });

  it.each(trees)(
    'keep every label inside its symbol and clear of the others, and make every node a link: $slug',
    async ({ slug, nodes }) => {
      await visit.open(`/trees/${slug}/`);

      expect(await measureGraphLabels(visit.page)).toEqual([]);
      const addresses = await visit.page
        .locator('.graph svg a')
        .evaluateAll((links) => links.map((link) => link.getAttribute('href')));
      for (const { id } of nodes) expect(addresses).toContain(`/trees/${slug}/${id}/`);
    },
  );
});

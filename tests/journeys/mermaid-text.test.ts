import { expect, inject, it } from 'vitest';
import { readGraphText } from '#build/mermaid.ts';
import { loadLibrary } from '#build/library.ts';
import { useBench } from './open-browser.ts';

const bench = useBench();

it('a tree gives its graph as text that Mermaid reads, by a link and by a button', async () => {
  const tree = [...loadLibrary().trees.values()][0];
  const { open, page } = await bench.visit({ permissions: ['clipboard-read', 'clipboard-write'] });
  await open(`/trees/${tree?.slug}/`);
  await page.getByRole('button', { name: 'Copy as Mermaid' }).click();
  await page.getByText('Copied.').waitFor();

  const copied = await page.evaluate(() => navigator.clipboard.readText());
  const response = await fetch(`${inject('siteAddress')}/trees/${tree?.slug}/graph.mmd`);
  expect(await response.text()).toBe(copied);
  expect((await readGraphText(copied)).nodes).toHaveLength(tree?.nodes.length ?? 0);
});

import { describe, expect, it } from 'vitest';
import { findLateAssets } from '#build/offline.ts';

const texts = new Map([
  ['index.html', '<script src="/_astro/home.aa.js"></script><link href="/_astro/sheet.bb.css">'],
  ['draft/index.html', '<script src="/_astro/draft.cc.js"></script><link href="/_astro/sheet.bb.css">'],
  ['_astro/home.aa.js', 'import"./shared.dd.js";import("./typed.ee.js")'],
  ['_astro/typed.ee.js', 'new Worker(new URL("worker.ff.js",import.meta.url))'],
  ['_astro/worker.ff.js', '1'],
  ['_astro/shared.dd.js', '2'],
  ['_astro/sheet.bb.css', 'p{}'],
  ['_astro/draft.cc.js', 'import"./shared.dd.js";import("./editor.gg.js")'],
  ['_astro/editor.gg.js', '3'],
]);

const read = (path: string): string => texts.get(path) ?? '';
const isDraft = (path: string): boolean => path.startsWith('draft/');

describe('parts that may come later', () => {
  it('are those that the drafting page alone leads to, directly or through another', () => {
    expect([...findLateAssets([...texts.keys()], read, isDraft)].sort()).toEqual([
      '_astro/draft.cc.js',
      '_astro/editor.gg.js',
    ]);
  });

  it('are none where every page counts', () => {
    expect([...findLateAssets([...texts.keys()], read, () => false)]).toEqual([]);
  });
});

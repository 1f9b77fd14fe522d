import type { BlockOfTree } from '#core/offline/choose-pack.ts';
import { loadLibrary } from '../library.ts';
import { treePages } from '../old-addresses.ts';

/** The block of each tree of the library, by its slug and by those it had before. */
export function blockOfTree(): BlockOfTree {
  return Object.fromEntries(treePages(loadLibrary()).map(({ treeSlug, tree }) => [treeSlug, tree.block]));
}

import { createHash } from 'node:crypto';
import { makeTreeMap } from '#core/link/make-tree-map.ts';
import type { FaultTree } from '#core/model/fault-tree.ts';
import { loadLibrary } from './library.ts';
import { linkTo } from './site-links.ts';

interface TreeMapFile {
  /** The map as JSON. */
  readonly text: string;
  /** Of the text: another map is never found at an address that was stored. */
  readonly hash: string;
}

/** The file that the pages of a tree fetch; made once. */
export function treeMapFile(tree: FaultTree): TreeMapFile {
  let file = files.get(tree);
  if (file === undefined) {
    const { trees, units } = loadLibrary();
    const text = JSON.stringify(makeTreeMap(tree, [...trees.keys()], [...units.values()], [...trees.values()]));
    file = { text, hash: createHash('sha256').update(text).digest('hex').slice(0, 8) };
    files.set(tree, file);
  }
  return file;
}

const files = new WeakMap<FaultTree, TreeMapFile>();

export function addressOfMap(tree: FaultTree): string {
  return linkTo({ kind: 'tree-map', tree: tree.slug, hash: treeMapFile(tree).hash });
}

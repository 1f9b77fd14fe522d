import type { FaultTree } from '#core/model/fault-tree.ts';
import type { Block, Library } from '#core/model/library.ts';
import { type CompiledContent, compileContent, type ContentFile } from '#compiler/compile-content.ts';
import { loadContent } from '#compiler/load.ts';
import { keepOnDisk } from './keep.ts';

interface ReadContent extends CompiledContent {
  readonly files: readonly ContentFile[];
}

/** Kept on the process: in `dev` the guard and the pages each have a copy of this module, and must see the same content. */
const shared: typeof globalThis & { halfsplitContent?: Map<string, ReadContent> } = globalThis;
shared.halfsplitContent ??= new Map();
const { halfsplitContent: contentOf } = shared;

/** All content under `root`, compiled once per build; `forgetContent` lets the next call read it again. */
export function readContent(root: string = process.cwd()): ReadContent {
  let content = contentOf.get(root);
  if (content === undefined) {
    const files = loadContent(root);
    content = { files, ...compileContent(files, keepOnDisk(root)) };
    contentOf.set(root, content);
  }
  return content;
}

export function forgetContent(): void {
  contentOf.clear();
}

/** The compiled library that every page reads. */
export function loadLibrary(): Library {
  return readContent().library;
}

/** Each block that has trees, with them. */
export function treesByBlock(): readonly (Block & { readonly trees: readonly FaultTree[] })[] {
  const { blocks, trees } = loadLibrary();
  return [...blocks.values()]
    .map((block) => ({ ...block, trees: [...trees.values()].filter((tree) => tree.block === block.slug) }))
    .filter((block) => block.trees.length > 0);
}

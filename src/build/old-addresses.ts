import type { FaultTree } from '#core/model/fault-tree.ts';
import type { Library } from '#core/model/library.ts';

/** A page to build for one node: under its own address, or under one it had before. */
export interface NodePage {
  readonly treeSlug: string;
  readonly nodeId: string;
  readonly tree: FaultTree;
  readonly node: string;
}

/** Every address of every tree: its slug, and the slugs it had before. */
export function treePages(library: Library): readonly { readonly treeSlug: string; readonly tree: FaultTree }[] {
  return [...library.trees.values()].flatMap((tree) =>
    [tree.slug, ...tree.was].map((treeSlug) => ({ treeSlug, tree })),
  );
}

/** Every address of every node, the old ones of node and tree included. */
export function nodePages(library: Library): readonly NodePage[] {
  return treePages(library).flatMap(({ treeSlug, tree }) =>
    tree.nodes.flatMap((node) => [node.id, ...node.was].map((nodeId) => ({ treeSlug, nodeId, tree, node: node.id }))),
  );
}

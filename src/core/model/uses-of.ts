import type { FaultTree, TreeNode } from './fault-tree.ts';
import type { Library } from './library.ts';
import { cautionsOf } from './node.ts';

export interface Use {
  readonly tree: FaultTree;
  readonly node: TreeNode;
}

/** Slugs of every target that a node shows, each once. */
export function targetsOf(node: TreeNode): readonly string[] {
  const uses =
    node.kind === 'check'
      ? [node.target]
      : node.kind === 'cause'
        ? [...(node.confirm?.targets ?? []), ...(node.repair?.targets ?? []), ...(node.prove?.targets ?? [])]
        : [];
  const stages = node.kind === 'path' ? node.stages.map(({ target }) => target) : [];
  return [...new Set([...uses.map((use) => use?.target), ...stages])].filter((slug) => slug !== undefined);
}

/** Nodes of all trees that show a target. */
export function usesOfTarget(library: Library, slug: string): readonly Use[] {
  return findUses(library, (node) => targetsOf(node).includes(slug));
}

/** Nodes of all trees that carry a caution. */
export function usesOfCaution(library: Library, slug: string): readonly Use[] {
  return findUses(library, (node) => cautionsOf(node, library).some((caution) => caution.slug === slug));
}

function findUses(library: Library, isUse: (node: TreeNode) => boolean): readonly Use[] {
  return [...library.trees.values()].flatMap((tree) => tree.nodes.filter(isUse).map((node) => ({ tree, node })));
}

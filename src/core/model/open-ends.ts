import type { FaultTree, TreeNode } from './fault-tree.ts';
import { reachableFrom } from './links.ts';

/** Causes, jumps and hand-overs that can still be reached from a node: what is still open there. */
export function openEnds(tree: FaultTree, id: string): readonly TreeNode[] {
  const reached = reachableFrom(tree, id);
  return tree.nodes.filter((node) => reached.has(node.id) && node.kind !== 'check' && node.kind !== 'path');
}

import type { TreeNode } from './fault-tree.ts';

/** Slugs of the set-ups a node needs: a step's own, a cause's for its repair. */
export function needsOf(node: TreeNode): readonly string[] {
  if (node.kind === 'check' || node.kind === 'path') return node.needs;
  return node.kind === 'cause' ? (node.repair?.needs ?? []) : [];
}

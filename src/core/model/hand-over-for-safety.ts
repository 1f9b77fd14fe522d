import type { HandOverReason, TreeNode } from './fault-tree.ts';

const grave: ReadonlySet<HandOverReason> = new Set(['mains', 'licensed', 'picture-tube', 'switch-mode']);

/** Whether a node ends the road because going on could hurt: while an answer that leads there stands, no other step of the tree is taken. */
export function isHandOverForSafety(node: TreeNode): boolean {
  return node.kind === 'hand-over' && grave.has(node.because);
}

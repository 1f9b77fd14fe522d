import type { TreeNode } from '#core/model/fault-tree.ts';

/** A reading that a step asks for: the target, the families of instruments named, and the key of the node. */
export interface Reading {
  readonly key: string;
  readonly instruments: readonly string[];
  readonly target: string;
}

/** The readings a check or path asks for, each target once; other nodes ask for none. */
export function readingsOf(node: TreeNode): readonly Reading[] {
  if (node.kind !== 'check' && node.kind !== 'path') return [];
  const targets = node.kind === 'check' ? [node.target?.target] : [...new Set(node.stages.map(({ target }) => target))];
  return targets
    .filter((target) => target !== undefined)
    .map((target) => ({ key: `node/${node.id}`, instruments: node.instruments, target }));
}

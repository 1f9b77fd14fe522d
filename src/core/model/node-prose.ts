import type { Prose, TreeNode } from './fault-tree.ts';

/** Every sentence a node shows, its parts included, in the order of the page. */
export function nodeProse(node: TreeNode): Prose {
  if (node.kind !== 'cause') return node.prose;
  const { repair } = node;
  return [
    ...node.prose,
    ...(node.confirm?.prose ?? []),
    ...(repair === undefined ? [] : [...repair.record, ...repair.prose]),
    ...(repair?.substitutes ?? []).flatMap(({ prose, test }) => [...prose, test]),
    ...(node.prove?.prose ?? []),
  ];
}

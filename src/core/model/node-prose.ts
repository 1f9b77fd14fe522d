import type { TreeNode } from './fault-tree.ts';
import { listParagraphs } from './prose.ts';

/** Plain text of all that a node says, its parts included, in the order of the page: each paragraph and list item. */
export function nodeProse(node: TreeNode): readonly string[] {
  if (node.kind !== 'cause') return listParagraphs(node.prose);
  const { repair } = node;
  return [
    ...listParagraphs(node.prose),
    ...listParagraphs(node.confirm?.prose ?? []),
    ...listParagraphs([...(repair?.record ?? []), ...(repair?.prose ?? [])]),
    ...(repair?.substitutes ?? []).flatMap(({ prose, test }) => [...listParagraphs(prose), test]),
    ...listParagraphs(node.prove?.prose ?? []),
  ];
}

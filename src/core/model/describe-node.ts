import type { FaultTree, TreeNode } from './fault-tree.ts';
import { listParagraphs } from './prose.ts';

/** Title and description of a node's page, as a search engine or a forum's preview shows them. */
export function describeNode(
  tree: FaultTree,
  node: TreeNode,
): { readonly title: string; readonly description: string } {
  const first = listParagraphs(node.prose)[0] ?? tree.summary;
  return { title: `${node.title} · ${tree.title} · Halfsplit`, description: shorten(first, 200) };
}

/** The text, cut at a word before `longest` characters. */
export function shorten(text: string, longest: number): string {
  if (text.length <= longest) return text;
  const cut = text.slice(0, longest - 1);
  return `${cut.slice(0, Math.max(cut.lastIndexOf(' '), 1))}…`;
}

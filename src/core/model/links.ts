import type { FaultTree, TreeNode } from './fault-tree.ts';

/** One way on from a node: the words that lead there, where it leads, and which part of the node says so. */
export interface Link {
  readonly from: string;
  readonly to: string;
  /** Outcome words, a stage's id, or `good`. */
  readonly words: readonly string[];
  /** Key of the part within the node: `outcome/0@to`, `stage/<id>@fault`, `@good`. */
  readonly part: string;
}

/** All ways on from a node, in the order of the file. Ends have none. */
export function linksFrom(node: TreeNode): readonly Link[] {
  if (node.kind === 'check') {
    return node.outcomes.map(({ when, to }, index) => ({
      from: node.id,
      to,
      words: when,
      part: `/outcome/${index}@to`,
    }));
  }
  if (node.kind !== 'path') return [];
  return [
    ...node.stages.map(({ id, fault }) => ({ from: node.id, to: fault, words: [id], part: `/stage/${id}@fault` })),
    { from: node.id, to: node.good, words: ['good'], part: '@good' },
  ];
}

/** Where a word leads from a node: an outcome word, a stage's id, or `good`; undefined where it is none of the node's. */
export function followLink(node: TreeNode, word: string): string | undefined {
  return linksFrom(node).find(({ words }) => words.includes(word))?.to;
}

/** The node with that id, or undefined. */
export function findNode(tree: FaultTree, id: string): TreeNode | undefined {
  return tree.nodes.find((node) => node.id === id);
}

/** Ids of all nodes that can be reached from `start`, itself included. */
export function reachableFrom(tree: FaultTree, start: string): ReadonlySet<string> {
  const seen = new Set<string>();
  const open = [start];
  while (open.length > 0) {
    const id = open.pop();
    if (id === undefined || seen.has(id)) continue;
    const node = findNode(tree, id);
    if (node === undefined) continue;
    seen.add(id);
    open.push(...linksFrom(node).map(({ to }) => to));
  }
  return seen;
}

/** Links that arrive at a node, in the order of the file. */
export function linksTo(tree: FaultTree, id: string): readonly Link[] {
  return tree.nodes.flatMap(linksFrom).filter(({ to }) => to === id);
}

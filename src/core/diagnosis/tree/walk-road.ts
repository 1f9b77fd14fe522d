import type { FaultTree } from '../../model/fault-tree.ts';
import { findNode } from '../../model/links.ts';
import type { KnownWords } from './follow-written.ts';

/**
 * Where the tree as written leads with the answers known: ids from the start to the first node that is not answered, that one included.
 * The last one is the page's own next step.
 */
export function walkRoad(tree: FaultTree, known: KnownWords): readonly string[] {
  const road: string[] = [];
  let id = tree.nodes[0]?.id;
  while (id !== undefined && !road.includes(id)) {
    road.push(id);
    id = nextOf(tree, id, known.get(id));
  }
  return road;
}

function nextOf(tree: FaultTree, id: string, word: string | undefined): string | undefined {
  const node = findNode(tree, id);
  if (word === undefined || node === undefined) return undefined;
  if (node.kind === 'check') return node.outcomes.find(({ when }) => when.includes(word))?.to;
  if (node.kind !== 'path') return undefined;
  return word === 'good' ? node.good : node.stages.find((stage) => stage.id === word)?.fault;
}

import type { FaultTree } from '../../model/fault-tree.ts';
import { findNode, followLink } from '../../model/node.ts';
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
    const node = findNode(tree, id);
    const word = known.get(id);
    id = node === undefined || word === undefined ? undefined : followLink(node, word);
  }
  return road;
}

import type { FaultTree } from '../../model/fault-tree.ts';
import { reachableFrom } from '../../model/node.ts';
import type { Answer } from '../../answer/answer.ts';

/** Answers after a repair that changed something, in their order. */
export interface SortedAnswers<A extends Answer> {
  readonly kept: readonly A[];
  /** Taken before the repair, and about what it may have changed: to be taken again. */
  readonly stale: readonly A[];
}

/**
 * Sorts answers taken before a repair after which the unit is worse or different: those stay whose check says nothing of the part repaired,
 * because the repair cannot have changed them. A check says something of a cause by what the cause `shows` there, or by lying on a
 * road to it.
 */
export function keepAfterRepair<A extends Answer>(
  tree: FaultTree,
  answers: readonly A[],
  cause: string,
): SortedAnswers<A> {
  const node = tree.nodes.find(({ id }) => id === cause);
  const shows = node !== undefined && 'shows' in node ? Object.keys(node.shows) : [];
  const isTouched = (id: string): boolean => shows.includes(id) || reachableFrom(tree, id).has(cause);
  return {
    kept: answers.filter((answer) => !isTouched(answer.node)),
    stale: answers.filter((answer) => isTouched(answer.node)),
  };
}

import type { FaultTree } from '../../model/fault-tree.ts';
import { findNode, reachableFrom } from '../../model/node.ts';
import type { Answer } from '../../answer/answer.ts';

/**
 * An answer given in one tree as the other tree's own answer: where both ask for the same target at the same test point, or for the same
 * sign. Undefined where the other tree asks for neither, where the answer was at a stage, and for what is read with power on where the
 * other tree's order is its safety: there it is read when the tree comes to it.
 * @example carryAnswer(supplyTree, { tree: 'psu-5v-low', node: 'rail-bare', … value: '5.02V' }, videoTree)?.node // 'rail'
 */
export function carryAnswer(from: FaultTree, answer: Answer, into: FaultTree): Answer | undefined {
  const source = findNode(from, answer.node);
  if (source?.kind !== 'check' || answer.stage !== undefined) return undefined;
  const same = into.nodes.find((node) => {
    if (node.kind !== 'check') return false;
    if (source.sign !== undefined && node.sign === source.sign) return true;
    return (
      source.target !== undefined &&
      node.target?.target === source.target.target &&
      node.target.point === source.target.point &&
      node.power === source.power &&
      (node.power === 'off' || into.order === undefined)
    );
  });
  return same === undefined ? undefined : { ...answer, tree: undefined, node: same.id };
}

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

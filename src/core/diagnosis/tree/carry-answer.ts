import type { FaultTree } from '../../model/fault-tree.ts';
import { findNode } from '../../model/node.ts';
import type { Answer } from '../../answer/answer.ts';

/**
 * An answer given in one tree as the other tree's own answer: where both ask for the same target at the same test point, or for the same
 * sign. Undefined where the other tree asks for neither, or the answer was at a stage.
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
      node.power === source.power
    );
  });
  return same === undefined ? undefined : { ...answer, tree: undefined, node: same.id };
}

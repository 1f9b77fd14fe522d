import type { Cause, Elsewhere, FaultTree, HandOver, TreeNode } from '../../model/fault-tree.ts';
import { findNode } from '../../model/node.ts';
import { reworkRepair } from '../../answer/answer.ts';

/** What may be wrong: an end of the tree. */
export type Hypothesis = Cause | Elsewhere | HandOver;

/** Something that no tree lists: part of every diagnosis. */
export const notListed = 'not-listed';
/** A fault that the last repair brought; links name the look at one's own rework by the same word. */
export const fromRepair: string = reworkRepair;
/** Between a cause and the one that brought it, in the id of a second fault: no node's id holds it. */
const broughtBy = '.by.';

/** Whether a node may be what is wrong. A hand-over for want of an instrument describes the reader and is none. */
export function isHypothesis(node: TreeNode): node is Hypothesis {
  return (
    node.kind === 'cause' || node.kind === 'elsewhere' || (node.kind === 'hand-over' && node.because !== 'instrument')
  );
}

export function nameSecondFault(cause: string, bringer: string): string {
  return `${cause}${broughtBy}${bringer}`;
}

/** The node that a cause of the problem stands for, a second fault's own; undefined where it stands for none. */
export function hypothesisOf(tree: FaultTree, causeId: string): Hypothesis | undefined {
  const node = findNode(tree, causeId.split(broughtBy)[0] ?? causeId);
  return node !== undefined && isHypothesis(node) ? node : undefined;
}

/** The cause that brought a second fault, or undefined where the id is not one of a second fault. */
export function bringerOf(causeId: string): string | undefined {
  return causeId.split(broughtBy)[1];
}

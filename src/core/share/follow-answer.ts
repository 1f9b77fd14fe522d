import type { TreeNode } from '../model/fault-tree.ts';
import { followLink } from '../model/links.ts';
import { readShare, reservedAnswers } from './answer-value.ts';

/**
 * Where an answer in words leads from the node that was answered; undefined where it leaves the reader on the spot. A share of the tries
 * counts as `sometimes`; at a stage only `bad` leads on, and of a path as a whole only `good`.
 * @example followAnswer(path, 'amp-in', 'bad') // the fault of the stage `amp-in`
 */
export function followAnswer(node: TreeNode, stage: string | undefined, word: string): string | undefined {
  if (node.kind === 'check') return followLink(node, readShare(word) === undefined ? word : reservedAnswers.sometimes);
  if (stage === undefined) return word === 'good' ? followLink(node, word) : undefined;
  return word === 'bad' ? followLink(node, stage) : undefined;
}

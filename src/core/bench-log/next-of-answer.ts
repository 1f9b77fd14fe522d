import { readAnswerValue } from '../answer/answer.ts';
import { followAnswer } from '../answer/lead.ts';
import type { FaultTree } from '../model/fault-tree.ts';
import { findNode } from '../model/node.ts';
import type { EventOf } from './event.ts';

/** The node that an answer in words leads to; the answered node itself where only a reading stands, or the tree has changed since. */
export function nextOfAnswer(tree: FaultTree, { node: id, stage, value }: EventOf<'answer'>): string | undefined {
  const node = findNode(tree, id);
  if (node === undefined) return undefined;
  return followAnswer(node, stage, readAnswerValue(value)?.value ?? '') ?? id;
}

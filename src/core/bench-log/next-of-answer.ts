import { readAnswerValue } from '../share/answer-value.ts';
import type { FaultTree } from '../model/fault-tree.ts';
import { findNode } from '../model/links.ts';
import type { EventOf } from './event.ts';

/** The node that an answer in words leads to; the answered node itself where only a reading stands, or the tree has changed since. */
export function nextOfAnswer(tree: FaultTree, { node: id, stage, value }: EventOf<'answer'>): string | undefined {
  const node = findNode(tree, id);
  const word = readAnswerValue(value)?.value ?? '';
  if (node?.kind === 'check') {
    const said = /^\d+-of-\d+$/.test(word) ? 'sometimes' : word;
    return node.outcomes.find(({ when }) => when.includes(said))?.to ?? id;
  }
  if (node?.kind !== 'path') return node?.id;
  if (stage === undefined) return word === 'good' ? node.good : id;
  return (word === 'bad' ? node.stages.find(({ id: of }) => of === stage)?.fault : undefined) ?? id;
}

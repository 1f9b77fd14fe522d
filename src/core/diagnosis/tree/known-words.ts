import type { KnownWords } from './follow-written.ts';
import type { ReadAnswer } from './read-answer.ts';
import type { FaultTree } from '../../model/fault-tree.ts';
import { stagesUpTo } from '../../model/node.ts';

/**
 * What each node was answered, as the tree's own links know it: an outcome word for a check; for a path `good` where its last stages are,
 * or the first bad stage where those that feed it are good. Later answers to one node count.
 */
export function listKnownWords(tree: FaultTree, read: readonly ReadAnswer[]): KnownWords {
  const known = new Map<string, string>();
  for (const node of tree.nodes) {
    if (node.kind === 'check') {
      const word = read.findLast((answer) => answer.node === node.id)?.word;
      if (word !== undefined) known.set(node.id, word);
    }
    if (node.kind !== 'path') continue;
    const ofPath = read.filter((answer) => answer.node === node.id && answer.word !== undefined);
    const whole = ofPath.findLast(({ stage }) => stage === undefined)?.word;
    const words = new Map(ofPath.flatMap(({ stage, word }) => (stage === undefined ? [] : [[stage, word]])));
    // A stage counts as good where a stage that it feeds is good.
    const isGood = (stage: string): boolean =>
      node.stages.some(({ id }) => words.get(id) === 'in' && stagesUpTo(node, id).has(stage));
    const firstBad = node.stages.find(({ id, from }) => words.get(id) === 'bad' && from.every(isGood));
    const isFed = new Set(node.stages.flatMap(({ from }) => from));
    const lasts = node.stages.filter(({ id }) => !isFed.has(id));
    const word = firstBad?.id ?? (lasts.every(({ id }) => isGood(id)) ? 'good' : whole);
    if (word !== undefined) known.set(node.id, word);
  }
  return known;
}

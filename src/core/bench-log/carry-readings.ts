import { carryAnswer } from '../diagnosis/tree/carry-answer.ts';
import { keepAfterRepair } from '../diagnosis/tree/keep-after-repair.ts';
import type { FaultTree } from '../model/fault-tree.ts';
import { findNode } from '../model/node.ts';
import { type Answer, readAnswerValue } from '../answer/answer.ts';
import type { Job } from './job.ts';

/**
 * The answers of a job that still hold in another tree, as answers of that tree: same target at the same point (or the same sign), same
 * power, same set-ups, and no repair since that can have changed them. A repair can have changed every check that says something of its
 * cause (keepAfterRepair); one done in another tree than the reading's, or in a tree that is not among `trees`, every reading before it.
 */
export function carryReadings(job: Job, trees: ReadonlyMap<string, FaultTree>, into: FaultTree): readonly Answer[] {
  return job.answers.flatMap(({ tree: slug, node, stage, value, at }) => {
    const from = trees.get(slug);
    const read = readAnswerValue(value);
    if (from === undefined || slug === into.slug || read === undefined) return [];
    const answer: Answer = { tree: slug, node, stage, ...read };
    const isKept = job.repairs
      .filter(({ event }) => event.at >= at)
      .every(({ event }) => event.tree === slug && keepAfterRepair(from, [answer], event.cause).kept.length > 0);
    const carried = isKept ? carryAnswer(from, answer, into) : undefined;
    return carried !== undefined && needsOf(from, node) === needsOf(into, carried.node) ? [carried] : [];
  });
}

/** A board unplugged or a load clipped on changes what is read. */
function needsOf(tree: FaultTree, id: string): string {
  const node = findNode(tree, id);
  return node?.kind === 'check' ? node.needs.toSorted().join(' ') : '';
}

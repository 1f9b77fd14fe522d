import { carryAnswer, keepAfterRepair } from '../diagnosis/tree/carry-answers.ts';
import type { Check, FaultTree } from '../model/fault-tree.ts';
import { findNode, linksFrom } from '../model/node.ts';
import { type Answer, emptyLinkState, type LinkState, readAnswerValue } from '../answer/answer.ts';
import { followAnswer } from '../answer/lead.ts';
import type { EventOf } from './event.ts';
import type { Job } from './job.ts';

/** The state of a diagnosis in one tree as the job has it: its answers there, the unit, and the repairs that did not cure. */
export function linkOfJob(job: Job, tree: string): LinkState {
  const answers = job.answers.filter((answer) => answer.tree === tree);
  const did = job.repairs
    .filter(({ event, result }) => event.tree === tree && (result?.result === 'same' || result?.result === 'worse'))
    .map(({ event }) => event.cause);
  const worsened = job.repairs.findLast(({ event, result }) => event.tree === tree && result?.result === 'worse');
  return {
    ...emptyLinkState,
    ...(worsened === undefined ? {} : { worsened: worsened.event.cause }),
    unit: job.unit.slug,
    instrument: answers.findLast(({ instrument }) => instrument !== undefined)?.instrument,
    did: [...new Set(did)],
    answers: answers.map(({ node, stage, value, instrument }) => ({
      tree: undefined,
      node,
      stage,
      ...(readAnswerValue(value) ?? { value }),
      ...(instrument === undefined ? {} : { instrument }),
    })),
  };
}

/** The node that an answer in words leads to; the answered node itself where only a reading stands, or the tree has changed since. */
export function nextOfAnswer(tree: FaultTree, { node: id, stage, value }: EventOf<'answer'>): string | undefined {
  const node = findNode(tree, id);
  if (node === undefined) return undefined;
  return followAnswer(linksFrom(node), stage, readAnswerValue(value)?.value ?? '') ?? id;
}

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

/** Checks that can be done while a part is on its way. */
export interface Meanwhile {
  /** With the power off: nothing that was taken out is missed. */
  readonly unpowered: readonly Check[];
  /** Only if nothing has been taken out of the unit. */
  readonly powered: readonly Check[];
}

/** The checks of a tree that are not answered yet and leave nothing behind, the shorter first. `answered` holds ids of checks. */
export function measureMeanwhile(tree: FaultTree, answered: ReadonlySet<string>): Meanwhile {
  const open = tree.nodes
    .filter((node): node is Check => node.kind === 'check')
    .filter(({ id, leaves, swap, after }) => {
      const isReady = after.every((check) => answered.has(check));
      return !answered.has(id) && leaves === 'nothing' && swap === undefined && isReady;
    })
    .sort((one, other) => one.minutes + one.waitMinutes - other.minutes - other.waitMinutes);
  return {
    unpowered: open.filter(({ power }) => power === 'off'),
    powered: open.filter(({ power }) => power !== 'off'),
  };
}

import type { FaultTree } from '../../model/fault-tree.ts';
import type { References } from '../../model/library.ts';
import { findNode } from '../../model/node.ts';
import { quick } from '../choose-action.ts';
import { takeAction } from '../model.ts';
import { type AssessOptions, assessTree, type Known, type OpenedTree, openTree, priceOpened } from './assess-tree.ts';
import type { ReadAnswer } from './written-road.ts';

/** The minutes that a reader is told. */
export interface ToldMinutes {
  /** Expected minutes to a proven repair by the engine, and as the tree is written; about. */
  readonly suggested: number;
  readonly written: number;
  /** One sentence that owns up to it, where the last answer made it longer by more than it took; else undefined. */
  readonly rise: string | undefined;
}

/** An answer less probable than this is called unexpected. */
const leastExpected = 0.5;

/**
 * Prices what is left as assessTree does, and the state before the last answer beside it. On the average over its answers a check takes off
 * what it costs, so one answer may leave more than there was before it: then `rise` says so, and whether the answer was the surprise or only
 * that the quick ways out are gone. Minutes are compared as they are told, whole. Cost: that of assessTree, and the states of the one before.
 */
export function tellMinutes(
  tree: FaultTree,
  references: References,
  known: Known,
  options: AssessOptions & { readonly mostStates: number },
): ToldMinutes {
  const now = assessTree(tree, references, known, options);
  const told = { suggested: now.expectedMinutes, written: now.writtenMinutes };
  const last = known.read.findLast(({ evidence }) => evidence.length > 0);
  if (last === undefined || now.next.kind === 'stop') return { ...told, rise: undefined };
  const before = openTree(
    tree,
    references,
    { ...known, read: known.read.filter((answer) => answer !== last) },
    options,
  );
  const was = priceOpened(before, options.effort ?? quick, options.mostStates).expectedMinutes;
  const { spentMinutes, probability } = measureAnswer(before, last);
  const more = Math.round(told.suggested) - Math.round(was);
  if (!(more > Math.round(spentMinutes))) return { ...told, rise: undefined };
  const title = findNode(tree, last.node)?.title ?? '';
  const rise =
    probability < leastExpected
      ? `That was unexpected: “${title}” came out the less likely way, and what is left takes about ${more} minutes more.`
      : `About ${more} minutes more than before “${title}”: what it leaves takes longer to find or to repair.`;
  return { ...told, rise };
}

/** What an answer took, with the set-ups that it was the first to need, and how probable it was before it was known. */
function measureAnswer(
  { derived, model, situation }: OpenedTree,
  { evidence, word }: ReadAnswer,
): { readonly spentMinutes: number; readonly probability: number } {
  let [spentMinutes, probability] = [0, 1];
  for (const item of evidence) {
    if (item.kind === 'repaired') continue;
    const check = derived.checks.findIndex(({ id }) => id === item.check);
    if (check < 0) continue;
    const { minutes, branches } = takeAction(model, situation.state, { kind: 'check', check });
    const said = item.kind === 'outcome' ? item.outcome : word;
    const outcome = derived.checks[check]?.words.indexOf(said ?? '') ?? -1;
    spentMinutes += minutes;
    if (outcome >= 0) probability *= branches.find((branch) => branch.outcome === outcome)?.probability ?? 0;
  }
  return { spentMinutes, probability };
}

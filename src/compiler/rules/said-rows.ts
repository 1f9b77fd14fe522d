import { everythingAtHand } from '#core/diagnosis/tree/tree-checks.ts';
import { deriveProblem } from '#core/diagnosis/tree/derive-problem.ts';
import type { FaultTree } from '#core/model/fault-tree.ts';
import type { Library } from '#core/model/library.ts';

/** What the checks of a tree say of its ends: P(outcome | end) by check and end, undefined where a check says nothing of an end. */
export interface SaidRows {
  readonly causes: readonly string[];
  readonly checks: readonly string[];
  readonly rows: readonly (readonly (readonly number[] | undefined)[])[];
}

/** Reads a tree as the diagnosis does, every answer taken as right. Cost: checks × ends. */
export function saidRowsOf(tree: FaultTree, library: Pick<Library, 'setups' | 'instruments'>): SaidRows {
  const { problem, saidRows } = deriveProblem(tree, library, {
    bench: everythingAtHand,
    goal: 'isolate',
    isFaultless: true,
    repaired: [],
    isWorsened: false,
  });
  return { causes: problem.causes.map(({ id }) => id), checks: problem.checks.map(({ id }) => id), rows: saidRows };
}

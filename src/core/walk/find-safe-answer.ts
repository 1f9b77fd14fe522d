import type { Check, FaultTree, Outcome } from '../model/fault-tree.ts';
import { isHandOverForSafety } from '../model/hand-over-for-safety.ts';
import { findNode } from '../model/links.ts';

/**
 * The answer to take where a reading leaves open which of `bands` it is, and one of them hands over because of a danger; undefined where
 * none does, or the node is no check.
 */
export function findSafeAnswer(tree: FaultTree, node: string, bands: readonly string[]): Outcome | undefined {
  const check = findNode(tree, node);
  return check?.kind === 'check' ? check.outcomes.find((outcome) => isSafe(outcome, bands, tree)) : undefined;
}

function isSafe({ when, to }: Check['outcomes'][number], bands: readonly string[], tree: FaultTree): boolean {
  const end = findNode(tree, to);
  return end !== undefined && isHandOverForSafety(end) && when.some((word) => bands.includes(word));
}

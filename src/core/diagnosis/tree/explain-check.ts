import type { TreeProblem } from './derive-problem.ts';
import { hypothesisOf, notListed } from './hypotheses.ts';

/** An outcome that would come less often than this is not spoken of. */
const leastProbability = 0.02;

/**
 * Says in one sentence what a check would tell apart: the cause that gains most by each of its two likeliest outcomes.
 * @example "Separates “Regulator dead” from “Reservoir capacitor dried out”."
 */
export function explainCheck({ tree, problem }: TreeProblem, checkId: string, probabilities: Float64Array): string {
  const check = problem.checks.find(({ id }) => id === checkId);
  if (check === undefined) return '';
  const outcomes = check.outcomes
    .map((_, outcome) => {
      const joint = problem.causes.map(
        (_cause, cause) => (probabilities[cause] ?? 0) * (check.likelihood[cause]?.[outcome] ?? 0),
      );
      const mass = joint.reduce((sum, probability) => sum + probability, 0);
      const gains = joint.map(
        (probability, cause) => (mass > 0 ? probability / mass : 0) - (probabilities[cause] ?? 0),
      );
      return { mass, gains };
    })
    .filter(({ mass }) => mass >= leastProbability)
    .toSorted((first, second) => second.mass - first.mass);
  const gainers = outcomes.slice(0, 2).map(({ gains }) => {
    let best = -1;
    gains.forEach((gain, cause) => {
      if (problem.causes[cause]?.id !== notListed && gain > (best < 0 ? 1e-6 : (gains[best] ?? 0))) best = cause;
    });
    return best < 0 ? undefined : hypothesisOf(tree, problem.causes[best]?.id ?? '')?.title;
  });
  const [first, second] = gainers;
  if (first !== undefined && second !== undefined && first !== second) return `Separates “${first}” from “${second}”.`;
  const named = first ?? second;
  return named === undefined ? 'Must come before what tells most.' : `Tells most about “${named}”.`;
}

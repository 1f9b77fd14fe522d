import type { Contradiction } from '../evidence.ts';
import type { Evidence } from '../problem.ts';
import type { TreeProblem } from './derive-problem.ts';
import { findConflict } from '../evidence.ts';
import type { ReadAnswer } from './read-answer.ts';

/**
 * Says which answers contradict each other, or hardly fit together, and which to look at again first; undefined where all is well.
 * `contradiction` names entries that cannot be true together at all; without it findConflict looks for those that hardly can.
 */
export function describeConflict(
  { tree, problem }: TreeProblem,
  read: readonly ReadAnswer[],
  evidence: readonly Evidence[],
  contradiction?: Pick<Contradiction, 'entries' | 'doubtful'>,
): string | undefined {
  const found = contradiction ?? findConflict(problem, evidence);
  if (found === undefined) return undefined;
  const name = (entry: number): string => {
    const item = evidence[entry];
    const given = read.find((answer) => item !== undefined && answer.evidence.includes(item));
    const title = tree.nodes.find(({ id }) => id === given?.node)?.title;
    return given === undefined || title === undefined ? 'a repair that did not cure' : `“${title}” ${given.said}`;
  };
  const isExact = contradiction !== undefined;
  const names = found.entries.slice(0, 2).map(name).join(' and ');
  const head = isExact ? 'These answers contradict each other' : 'These answers hardly fit together';
  return `${head}: ${names}. Look again at ${name(found.doubtful)} first; if both are right, there may be two faults.`;
}

import { printWord } from '../../model/target-text.ts';
import type { Evidence } from '../problem.ts';
import type { TreeProblem } from './derive-problem.ts';
import { findConflict } from './find-conflict.ts';
import type { ReadAnswer } from './read-answers.ts';

/**
 * Says which answers contradict each other, or hardly fit together, and which to look at again first; undefined where all is well.
 * `contradiction` names entries that cannot be true together at all; without it findConflict looks for those that hardly can.
 */
export function describeConflict(
  { tree, problem }: TreeProblem,
  read: readonly ReadAnswer[],
  contradiction: { readonly entries: readonly number[]; readonly doubtful: number } | undefined,
  evidence: readonly Evidence[],
): string | undefined {
  const found = contradiction ?? findConflict(problem, evidence);
  if (found === undefined) return undefined;
  const name = (entry: number): string => {
    const item = evidence[entry];
    const given = read.find((answer) => item !== undefined && answer.evidence.includes(item));
    const title = tree.nodes.find(({ id }) => id === given?.answer.node)?.title;
    if (given === undefined || title === undefined) return 'a repair that did not cure';
    const said = given.judged === undefined ? printWord(given.answer.value) : given.answer.value;
    return `“${title}” ${said}`;
  };
  const isExact = contradiction !== undefined;
  const names = found.entries.map(name).join(' and ');
  const head = isExact ? 'These answers contradict each other' : 'These answers hardly fit together';
  return `${head}: ${names}. Look again at ${name(found.doubtful)} first; if both are right, there may be two faults.`;
}

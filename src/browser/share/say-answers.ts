import type { Answer } from '#core/answer/answer.ts';
import { sayAnswer } from '#core/answer/say.ts';
import { benchOf, loadWalk } from '../walk/load-bench.ts';

/** Says answers of a tree in the words of its buttons. Throws where the tree's data cannot be fetched. */
export async function makeSayer(tree: string): Promise<(answer: Answer) => string> {
  const walk = await loadWalk(tree);
  if (walk === undefined) throw new Error('The data of this tree could not be read.');
  const bench = benchOf(walk, undefined);
  return (answer) => sayAnswer(answer, bench);
}

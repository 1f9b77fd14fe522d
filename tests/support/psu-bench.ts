import { loadLibrary } from '#build/library.ts';
import type { Answer } from '#core/answer/answer.ts';
import type { BenchTree } from '#core/answer/bench-tree.ts';

const library = loadLibrary();
const tree = library.trees.get('psu-5v-low');
if (tree === undefined) throw new Error('No such tree');

/** The tree of a low 5 V rail on a bench without a board. */
export const psuBench: BenchTree = { tree, references: library, limits: {} };

/** An answer to a check of it. */
export function answerTo(node: string, value: string, change: Partial<Answer> = {}): Answer {
  return { tree: undefined, stage: undefined, node, value, ...change };
}

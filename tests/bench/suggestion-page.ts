import { quick } from '#core/diagnosis/choose-action.ts';
import { buildModel } from '#core/diagnosis/model.ts';
import { suggestNext } from '../support/diagnosis/suggest-next.ts';
import { generateProblem, type ProblemShape } from '../support/diagnosis/generate-problem.ts';

/** Runs in the page: milliseconds of each of `runs` suggestions on one problem, its model made before, as the page keeps it. */
export function measureSuggestions(seed: number, shape: ProblemShape, runs: number): readonly number[] {
  const problem = generateProblem(seed, shape);
  const model = buildModel(problem);
  return Array.from({ length: runs }, () => {
    const before = performance.now();
    suggestNext(problem, model, [], quick);
    return performance.now() - before;
  });
}

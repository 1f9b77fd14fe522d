import { assessTree } from '#core/diagnosis/tree/assess-tree.ts';
import type { Minutes, PriceRequest } from './price-minutes.ts';

/** States of the plan that are visited: within a few tenths of a second on a phone. */
const mostStates = 300;

addEventListener('message', ({ data }: MessageEvent<PriceRequest>) => {
  const { tree, references, known, bench } = data;
  const { expectedMinutes, writtenMinutes } = assessTree(tree, references, known, {
    bench,
    mostStates,
  });
  const minutes: Minutes = { suggested: expectedMinutes, written: writtenMinutes };
  postMessage(minutes);
});

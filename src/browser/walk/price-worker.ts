import { assessTree, measureInstruments } from '#core/diagnosis/tree/assess-tree.ts';
import { tellMinutes } from '#core/diagnosis/tree/tell-minutes.ts';
import type { Bench } from '#core/diagnosis/tree/tree-checks.ts';
import { thorough } from '#core/diagnosis/choose-action.ts';
import type { Minutes, PriceRequest } from './price-minutes.ts';

/** States of the plan that are visited: within a few tenths of a second on a phone. */
const mostStates = 300;
/** For each instrument that is not at hand: only a difference is wanted. */
const statesOfSaving = 60;

addEventListener('message', ({ data }: MessageEvent<PriceRequest>) => {
  const { tree, references, known, bench } = data;
  // The limit of the job says when to stop, not how long a repair takes.
  const unlimited: Bench = { ...bench, limitMinutes: undefined };
  const { next, why, written } = assessTree(tree, references, known, { bench, effort: thorough });
  const minutes: Minutes = {
    ...tellMinutes(tree, references, known, { bench: unlimited, mostStates }),
    savings: measureInstruments(tree, references, known, unlimited, statesOfSaving),
    better: { next, why, written },
  };
  postMessage(minutes);
});

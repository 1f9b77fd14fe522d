import type { Walk } from '#core/answer/bench-tree.ts';
import {
  type Assessment,
  assessTree,
  type InstrumentSaving,
  type Known,
  measureInstruments,
} from '#core/diagnosis/tree/assess-tree.ts';
import { tellMinutes, type ToldMinutes } from '#core/diagnosis/tree/tell-minutes.ts';
import type { Bench } from '#core/diagnosis/tree/tree-checks.ts';
import { thorough } from '#core/diagnosis/choose-action.ts';

/** What the worker needs to count. */
export interface PriceRequest extends Walk {
  readonly known: Known;
  readonly bench: Bench;
}

/** What takes longer than a press: about how many minutes are left to a proven repair, and the next step thought over. */
export interface Minutes extends ToldMinutes {
  /** What instruments that are not at hand would save here. */
  readonly savings: readonly InstrumentSaving[];
  /** The step that looking further ahead finds; mostly the one that stands on the page already. */
  readonly better: Pick<Assessment, 'next' | 'why' | 'written'>;
}

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

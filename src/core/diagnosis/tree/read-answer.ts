import type { Evidence } from '../problem.ts';

/** An answer that was understood, as the engine takes it. */
export interface ReadAnswer {
  readonly node: string;
  /** Stage, where the node is a path. */
  readonly stage: string | undefined;
  /** As a person would say it. */
  readonly said: string;
  /** Outcome word it amounts to (`in` or `bad` at a stage); undefined where a reading is too close to call or nothing was seen. */
  readonly word: string | undefined;
  /** One piece for each check of the problem that it speaks of; none where it is no evidence. */
  readonly evidence: readonly Evidence[];
}

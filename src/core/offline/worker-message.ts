/** What a page asks of the offline worker; the worker replies with the answer of the same name. */
export type WorkerQuestion =
  /** Is everything of this version stored? */
  | { readonly type: 'report' }
  /** The person pressed “Use it now”: may the waiting version take over? */
  | { readonly type: 'take-over' };

export interface WorkerAnswers {
  /** `hasDrafting`: what only the drafting page needs is stored too, as it is after the first visit there. */
  readonly report: { readonly isComplete: boolean; readonly hasDrafting: boolean };
  readonly 'take-over': { readonly isTaken: boolean };
}

/** What the worker tells a page unasked: a part of it is neither stored nor can be fetched. */
export interface MissingPart {
  readonly type: 'missing-part';
}

/** What a waiting worker asks of every other window before it takes over; the reply, to the port sent along, is a boolean. */
export interface AtWorkQuestion {
  readonly type: 'at-work';
}

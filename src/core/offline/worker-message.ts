/** What a page asks of the offline worker; the worker replies with the answer of the same name. */
export type WorkerQuestion =
  /** Is everything of this version stored? */
  | { readonly type: 'report' }
  /** The person pressed “Use it now”: may the waiting version take over? */
  | { readonly type: 'take-over' }
  /** The person wants a block on this device, or no longer. */
  | { readonly type: 'store-block'; readonly block: string; readonly isWanted: boolean };

export interface WorkerAnswers {
  /**
   * `hasDrafting`: what only the drafting page needs is stored too, as it is after the first visit there. `blocks`: those
   * that are stored when they are opened or asked for; none where the library is small enough to be stored whole.
   */
  readonly report: {
    readonly isComplete: boolean;
    readonly hasDrafting: boolean;
    readonly blocks: readonly StoredBlock[];
  };
  readonly 'take-over': { readonly isTaken: boolean };
  readonly 'store-block': { readonly blocks: readonly StoredBlock[] };
}

/** A block of a large library. */
export interface StoredBlock {
  readonly block: string;
  /** Of all its packs, compressed. */
  readonly bytes: number;
  /** How many of its packs are stored, of how many: the pages of one that was opened are, those of its neighbours need not be. */
  readonly stored: number;
  readonly packs: number;
}

/** What the worker tells a page unasked: a part of it, or the whole page, is neither stored nor can be fetched. */
export interface Missing {
  readonly type: 'missing';
  readonly isPage: boolean;
}

/** What a waiting worker asks of every other window before it takes over; the reply, to the port sent along, is a boolean. */
export interface AtWorkQuestion {
  readonly type: 'at-work';
}

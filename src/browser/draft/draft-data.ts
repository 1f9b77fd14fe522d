import type { DraftLibrary } from '#compiler/compile-draft.ts';

/** What the drafting page fetches once: the library that drafts are judged against, and the graph's font in numbers. */
export interface DraftData {
  readonly library: DraftLibrary;
  /** Width of each letter of the sheet's font, in em. */
  readonly letterWidths: Readonly<Record<string, number>>;
}

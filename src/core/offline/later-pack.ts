/** The pack of what only the drafting page needs: its editor and the compiler are heavier than a block, and few will draft. */
export const draftingPack = 'drafting';

/** A pack that is not part of the first visit. */
export interface LaterPack {
  /** Subresource integrity of its file. */
  readonly integrity: string;
  readonly bytes: number;
  /** The block it belongs to; null: it is that of the drafting page. */
  readonly block: string | null;
}

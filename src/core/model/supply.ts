/** What makes the low voltages of a unit: inside its case, or in a brick outside it. */
export const supplyKinds = ['transformer', 'transformer-brick', 'switch-mode', 'switch-mode-brick'] as const;
export type SupplyKind = (typeof supplyKinds)[number];

/** Whether such a supply has no half that is joined to the mains and keeps its charge. */
export function isTransformer(kind: SupplyKind | 'unknown' | undefined): boolean {
  return kind === 'transformer' || kind === 'transformer-brick';
}

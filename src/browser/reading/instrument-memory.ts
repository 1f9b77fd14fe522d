import type { InstrumentClass } from '#core/model/instrument-class.ts';
import { isInstrument } from '#core/reading/choose-instrument.ts';

const key = 'halfsplit.instrument';
let kept: string | undefined;

/**
 * The instrument that counts at a field: the one its reading was taken with, the one chosen here, the one the link names, the one this
 * person chose last in any tab. Names that nobody knows are passed over, wherever they come from.
 */
export function findInstrument(
  named: readonly (string | undefined)[],
  classes: ReadonlyMap<string, InstrumentClass>,
): string | undefined {
  return [...named, recall()].find((name) => name !== undefined && isInstrument(name, classes));
}

function recall(): string | undefined {
  try {
    return localStorage.getItem(key) ?? kept;
  } catch {
    return kept;
  }
}

/** Remembers it; where the browser refuses storage, until the page is left. */
export function rememberInstrument(name: string): void {
  kept = name;
  try {
    localStorage.setItem(key, name);
  } catch {
    // Kept above.
  }
}

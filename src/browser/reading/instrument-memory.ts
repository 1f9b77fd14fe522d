import type { InstrumentClass } from '#core/model/instrument-class.ts';
import { isInstrument } from '#core/reading/instrument.ts';
import { read } from '../kit/storage.ts';

/**
 * The instrument that counts at a field: the one its reading was taken with, the one chosen here, the one the link names, the one this
 * person chose last in any tab. Names that nobody knows are passed over, wherever they come from.
 */
export function findInstrument(
  named: readonly (string | undefined)[],
  classes: ReadonlyMap<string, InstrumentClass>,
): string | undefined {
  return [...named, read('instrument')].find((name) => name !== undefined && isInstrument(name, classes));
}

import type { InstrumentClass } from '../model/instrument-class.ts';

/** ±(percent of reading + counts of the last digit). */
export interface OwnAccuracy {
  readonly percent: number;
  readonly counts: number;
}

/**
 * Reads an accuracy as an instrument's leaflet prints it: `±(0.5 % + 2)`, `0.5%+2`, `1,2 % + 10 digits`, `0.8% rdg + 3 dgt`, `2 %`.
 * Percent from 0 to 50, counts from 0 to 1000. Undefined for anything else.
 */
export function parseAccuracy(text: string): OwnAccuracy | undefined {
  if (text.length > 60) return undefined;
  const plain = text
    .normalize('NFKC')
    .replace(/[±()\s]/g, '')
    .replace(/^\+\/?-/, '')
    .toLowerCase();
  const found =
    /^(\d{1,3}(?:[.,]\d{1,6})?)%(?:of)?(?:reading|rdg)?(?:\+(\d{1,4})(?:counts?|digits?|dgts?|d|lsd)?)?$/.exec(plain);
  if (found === null) return undefined;
  const percent = Number((found[1] ?? '').replace(',', '.'));
  const counts = Number(found[2] ?? 0);
  return percent <= 50 && counts <= 1000 ? { percent, counts } : undefined;
}

/**
 * An instrument of the reader's own, for one quantity: counts are counts of the last digit typed, whatever the range.
 * `quantity` and `unit` are the target's; input resistance in ohms where it is known.
 */
export function makeOwnInstrument(
  { percent, counts }: OwnAccuracy,
  { quantity, unit, family }: { readonly quantity: string; readonly unit: string; readonly family: string },
  inputResistanceOhms?: number,
): InstrumentClass {
  const range = {
    to: Number.POSITIVE_INFINITY,
    percent,
    counts,
    resolution: undefined,
    inputResistanceOhms: undefined,
  };
  return {
    slug: 'own',
    title: `Own instrument, ±(${percent} % + ${counts})`,
    family,
    status: 'practice',
    inputResistanceOhms,
    inputCapacitanceFarads: undefined,
    ohmsPerVolt: undefined,
    thresholds: undefined,
    quantities: { [quantity]: { unit, ranges: [range] } },
  };
}

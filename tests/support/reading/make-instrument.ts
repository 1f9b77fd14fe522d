import type { InstrumentClass } from '#core/model/instrument-class.ts';

/** A meter of one quantity: ±(percent + counts × resolution) on one range to `to`. */
export function makeInstrument(
  accuracy: { readonly percent: number; readonly counts: number; readonly resolution: number; readonly to: number },
  change: Partial<InstrumentClass> & { readonly quantity?: string; readonly unit?: string } = {},
): InstrumentClass {
  const { quantity = 'voltage-dc', unit = 'V', ...rest } = change;
  return {
    slug: 'meter',
    title: 'Meter',
    family: 'multimeter',
    status: 'practice',
    inputResistanceOhms: 10_000_000,
    inputCapacitanceFarads: undefined,
    ohmsPerVolt: undefined,
    thresholds: undefined,
    quantities: { [quantity]: { unit, ranges: [{ ...accuracy, inputResistanceOhms: undefined }] } },
    ...rest,
  };
}

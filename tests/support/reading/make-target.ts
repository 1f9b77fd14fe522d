import type { InstrumentClass } from '#core/model/instrument-class.ts';
import type { Target } from '#core/model/target.ts';

/** A 5 V rail of 4.75 to 5.25 V with a `none` below 0.5 V, changed as a test needs. */
export function makeTarget(change: Partial<Target> = {}): Target {
  return {
    slug: 'rail',
    title: 'Rail',
    quantity: 'voltage-dc',
    unit: 'V',
    nominal: 5,
    bands: [
      { name: 'none', from: undefined, to: 0.5 },
      { name: 'low', from: 0.5, to: 4.75 },
      { name: 'in', from: 4.75, to: 5.25 },
      { name: 'high', from: 5.25, to: undefined },
    ],
    words: [],
    compare: 'value',
    sign: 'positive',
    conditions: '',
    instruments: ['multimeter'],
    source: 'bench-practice',
    status: 'practice',
    variants: {},
    sourceResistanceOhms: undefined,
    misreads: [],
    relativeTo: undefined,
    prose: [],
    ...change,
  };
}

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

import type { Band, Target } from '#core/model/target.ts';

/** The 5 V rail as a target: none below 0.5 V, low below 4.75 V, high above 5.25 V. */
export function makeTarget(change: Partial<Target> = {}): Target {
  return {
    slug: 'rail-5v',
    title: 'Five volt rail',
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
    conditions: 'Under load.',
    instruments: ['multimeter'],
    source: 'bench',
    status: 'practice',
    variants: {},
    sourceResistanceOhms: undefined,
    misreads: [],
    entered: [],
    computed: undefined,
    ownValues: [],
    prose: [],
    ...change,
  };
}

/** The bands of two limits; a side without a limit has no band. */
export function bandsOf(low: number | undefined, high: number | undefined): readonly Band[] {
  return [
    ...(low === undefined ? [] : [{ name: 'low', from: undefined, to: low }]),
    { name: 'in', from: low, to: high },
    ...(high === undefined ? [] : [{ name: 'high', from: high, to: undefined }]),
  ];
}

import type { Prose } from './prose.ts';

export type Status = 'read' | 'memory' | 'practice' | 'computed';

/** What a healthy circuit reads at one kind of point. All numbers are in `unit`. */
export interface Target {
  readonly slug: string;
  readonly title: string;
  /** Slug of quantities: voltage-dc, resistance … */
  readonly quantity: string;
  /** A unit of the quantity, SI prefix allowed: `mV`, `kΩ`. */
  readonly unit: string;
  readonly nominal: number | undefined;
  /** From the lowest to the highest; neighbours share their edge. Exactly one is `in`. */
  readonly bands: readonly Band[];
  /** Answers that are not a number: `pulsing`, `reversed`. */
  readonly words: readonly string[];
  /** Compare without regard to sign; a wrong sign is the word `reversed`. */
  readonly compare: 'value' | 'magnitude';
  /** For magnitude targets, the sign a healthy reading has. */
  readonly sign: 'positive' | 'negative';
  readonly conditions: string;
  readonly instruments: readonly string[];
  /** Slug of sources.yaml. */
  readonly source: string;
  readonly status: Status;
  /** Limits that differ by region or standard: variant slug (`mains-60`) to its own numbers. */
  readonly variants: Readonly<Record<string, Limits>>;
  /** Resistance of the circuit behind the point, ohms, where a meter's own resistance matters. */
  readonly sourceResistanceOhms: number | undefined;
  /** Readings that fool people: which instrument, in which interval, and what it really means. */
  readonly misreads: readonly Misread[];
  /** What is read where the target is computed from several figures, in the order of its formula; else empty. */
  readonly entered: readonly Entered[];
  /** How the figures become one number. */
  readonly computed: FormulaName | undefined;
  readonly ownValues: readonly OwnValuesName[];
  readonly prose: Prose;
}

/** The ways in which several figures become one number; what each does stands in `core/reading/formula.ts`. */
export const formulaNames = [
  'ratio',
  'percent',
  'difference',
  'sum',
  'trough',
  'departure',
  'peak',
  'ripple',
  'leakage',
  'loss',
] as const;
export type FormulaName = (typeof formulaNames)[number];

/** What a target's page computes for the reader's own parts; each stands in `core/reading/own-values.ts`. */
export const ownValuesNames = [
  'current-by-drop',
  'charge-time',
  'bleed-time',
  'ripple-trough',
  'ripple',
  'junction-heat',
  'adjusted-output',
  'series-resistor',
  'turns-a-minute',
  'crystal-load',
  'fresh-esr',
  'divider',
  'pull-up-least',
  'pull-up-most',
  'probe-pull',
  'current-loop',
  'pitch-step',
] as const;
export type OwnValuesName = (typeof ownValuesNames)[number];

/** One of the figures that a target is computed from. */
export interface Entered {
  /** Label of its field: `supply pin`. */
  readonly name: string;
  readonly quantity: string;
  readonly unit: string;
  /** It stands on a part, a label or a sheet, and has no doubt of its own. */
  readonly isMarked: boolean;
  /** It may be left out, and then counts as 0. */
  readonly isOptional: boolean;
}

export interface Band {
  readonly name: string;
  /** Lower edge in the target's unit, or undefined where the band has no lower end. */
  readonly from: number | undefined;
  readonly to: number | undefined;
}

export interface Limits {
  readonly low: number | undefined;
  readonly nominal: number | undefined;
  readonly high: number | undefined;
}

export interface Misread {
  readonly instrument: string;
  readonly from: number | undefined;
  readonly to: number | undefined;
  readonly says: string;
}

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
  /** What a percentage is of, where the unit is `%`. */
  readonly relativeTo: string | undefined;
  readonly prose: Prose;
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

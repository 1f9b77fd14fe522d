import type { Status } from './target.ts';

/** A class of instruments, never a product: how far its readings are trusted, and what it does to the circuit. */
export interface InstrumentClass {
  readonly slug: string;
  readonly title: string;
  /** Slug of an instrument family. */
  readonly family: string;
  readonly status: Status;
  /** Ohms that the circuit sees; undefined where it follows the range or does not matter. */
  readonly inputResistanceOhms: number | undefined;
  readonly inputCapacitanceFarads: number | undefined;
  /** Pointer meters. */
  readonly ohmsPerVolt: number | undefined;
  /** Lamps of a logic probe: below `low` one, above `high` the other. */
  readonly thresholds: LampThresholds | undefined;
  /** By slug of quantity. */
  readonly quantities: Readonly<Record<string, Accuracy>>;
}

export interface LampThresholds {
  readonly unit: string;
  readonly low: number;
  readonly high: number;
  readonly source: string;
}

/** Accuracy of one quantity, in `unit`. */
export interface Accuracy {
  readonly unit: string;
  /** From the lowest to the highest. */
  readonly ranges: readonly AccuracyRange[];
}

/** ±(percent of the reading + counts × resolution), the maker's limits of error. */
export interface AccuracyRange {
  /** Full scale. */
  readonly to: number;
  readonly percent: number;
  readonly counts: number;
  /** One count; undefined means the last digit typed, for an accuracy that a reader entered. */
  readonly resolution: number | undefined;
  readonly inputResistanceOhms: number | undefined;
}

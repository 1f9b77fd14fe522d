import type { Accuracy, AccuracyRange, InstrumentClass } from '../model/instrument-class.ts';
import type { Target } from '../model/target.ts';
import { convertUnit, halfLastDigit, type Reading, shiftDecimal, valueIn } from '../quantity/reading.ts';

/** How far one reading may be off, in the unit of its target. */
export interface Doubt {
  /** Limit of error in proportion to the reading, in per cent of it. */
  readonly gainPercent: number;
  /** Limit of error that does not depend on the reading: counts × resolution. */
  readonly fixed: number;
  /** ±a = gain + fixed, the accuracy the instrument promises. */
  readonly accuracy: number;
  /** What the last digit typed hides at most. */
  readonly halfDigit: number;
  /** One count of the range, undefined where no range is known. */
  readonly resolution: number | undefined;
  /** Ohms that the circuit saw, undefined where unknown. */
  readonly inputResistanceOhms: number | undefined;
  /** The figure is more than the highest range shows. */
  readonly isBeyondRange: boolean;
  /** √((a/√3)² + (half digit/√3)²). */
  readonly standardUncertainty: number;
}

/** What is measured, and in which unit the doubt is wanted. */
export type Measurand = Pick<Target, 'quantity' | 'unit' | 'bands'>;

/**
 * The doubt of a reading with an instrument. Accuracy is ±(percent of reading + counts × resolution) on the lowest range that holds
 * the figure, as a range-finding meter chooses it; accuracy and half the last digit are each taken as rectangular, divided by √3, and
 * added in squares (JCGM 100:2008, GUM, clauses 4.3.7, 5.1.2 and F.2.2.1).
 *
 * A ratio is computed by the reader from readings of another quantity, so the least accurate quantity of the instrument, at its best
 * range, stands for it: a percentage of the ratio, or of the whole where the target is a departure from zero.
 *
 * Without an instrument only the digit counts. Undefined where the instrument does not measure the quantity.
 * @example
 * // 4.72 V on the 20 V range of a 2000-count meter, ±(0.5 % + 2 counts of 10 mV): a = 0.0436 V, half digit 0.005 V, u = 0.0253 V
 */
export function assessDoubt(
  reading: Reading,
  measurand: Measurand,
  instrument: InstrumentClass | undefined,
): Doubt | undefined {
  const halfDigit = halfLastDigit(reading, measurand.unit);
  const value = Math.abs(valueIn(reading, measurand.unit));
  if (instrument === undefined) return combine({ gainPercent: 0, fixed: 0, value, halfDigit, range: undefined });
  const accuracy = findAccuracy(instrument, measurand.quantity);
  if (accuracy === undefined) {
    return measurand.quantity === 'ratio' ? assessRatio(value, halfDigit, measurand, instrument) : undefined;
  }
  const scaled = chooseRange(value, accuracy, measurand.unit);
  if (scaled === undefined) return undefined;
  const resolution = scaled.resolution ?? 2 * halfDigit;
  const doubt = combine({
    gainPercent: scaled.range.percent,
    fixed: scaled.range.counts * resolution,
    value,
    halfDigit,
    range: { resolution, inputResistanceOhms: scaled.range.inputResistanceOhms ?? instrument.inputResistanceOhms },
  });
  return { ...doubt, isBeyondRange: value > scaled.to };
}

/** The accuracy of a quantity, or undefined where the instrument does not measure it. */
export function findAccuracy(instrument: InstrumentClass, quantity: string): Accuracy | undefined {
  return Object.hasOwn(instrument.quantities, quantity) ? instrument.quantities[quantity] : undefined;
}

/** Full scale of the highest range, in `unit`; undefined where the instrument does not measure the quantity. */
export function findHighestReading(instrument: InstrumentClass, { quantity, unit }: Measurand): number | undefined {
  const accuracy = findAccuracy(instrument, quantity);
  const highest = accuracy?.ranges.at(-1);
  return accuracy === undefined || highest === undefined ? undefined : convertUnit(highest.to, accuracy.unit, unit);
}

/**
 * Standard uncertainty of a doubt whose value is the difference of two readings of one instrument: the gain error is the same in both
 * and cancels but for its share of the difference; counts and digits are each instrument reading's own.
 */
export function uncertaintyOfDifference(difference: number, one: Doubt, other: Doubt): number {
  const gain = (Math.max(one.gainPercent, other.gainPercent) / 100) * Math.abs(difference);
  return Math.hypot(gain, one.fixed, other.fixed, one.halfDigit, other.halfDigit) / Math.sqrt(3);
}

function chooseRange(
  value: number,
  { ranges, unit }: Accuracy,
  wanted: string,
): { readonly range: AccuracyRange; readonly to: number; readonly resolution: number | undefined } | undefined {
  const scale = (number: number | undefined): number | undefined =>
    number === undefined ? undefined : convertUnit(number, unit, wanted);
  const scaled = ranges.map((range) => ({
    range,
    to: scale(range.to) ?? Number.NaN,
    resolution: scale(range.resolution),
  }));
  if (scaled.some(({ to }) => Number.isNaN(to))) return undefined;
  return scaled.find(({ to }) => value <= to) ?? scaled.at(-1);
}

function assessRatio(
  value: number,
  halfDigit: number,
  { unit, bands }: Measurand,
  { quantities }: InstrumentClass,
): Doubt {
  const relativeAtFullScale = ({ percent, counts, resolution, to }: AccuracyRange): number =>
    percent + (100 * counts * (resolution ?? 0)) / to;
  const best = Object.values(quantities).map(({ ranges }) => Math.min(...ranges.map(relativeAtFullScale)));
  const gainPercent = best.length === 0 ? 0 : Math.max(...best);
  const isDeparture = bands.some(({ from = 0, to = 0 }) => from < 0 || to < 0);
  const whole = unit === 'ppm' ? 1e6 : 100;
  return combine({
    gainPercent,
    fixed: isDeparture ? (gainPercent / 100) * whole : 0,
    value,
    halfDigit,
    range: undefined,
  });
}

function combine({
  gainPercent,
  fixed,
  value,
  halfDigit,
  range,
}: {
  readonly gainPercent: number;
  readonly fixed: number;
  readonly value: number;
  readonly halfDigit: number;
  readonly range: { readonly resolution: number; readonly inputResistanceOhms: number | undefined } | undefined;
}): Doubt {
  const accuracy = Number.isFinite(value) ? shiftDecimal(gainPercent * value, -2) + fixed : 0;
  return {
    gainPercent,
    fixed,
    accuracy,
    halfDigit,
    resolution: range?.resolution,
    inputResistanceOhms: range?.inputResistanceOhms,
    isBeyondRange: false,
    standardUncertainty: Math.hypot(accuracy, halfDigit) / Math.sqrt(3),
  };
}

/**
 * What the point would read without the meter: V × (1 + source resistance ÷ input resistance), the voltage divider of the two.
 * Resistances in ohms; the result is in the unit of `reading`. An infinite input resistance changes nothing.
 * @example correctLoading(4.7619, 500_000, 10_000_000) // 5.000 V: 10 V across 1 MΩ + 1 MΩ, read with a 10 MΩ meter
 */
export function correctLoading(reading: number, sourceResistanceOhms: number, inputResistanceOhms: number): number {
  return reading * (1 + sourceResistanceOhms / inputResistanceOhms);
}

/** A crystal oscillator's parts. */
export interface CrystalCircuit {
  /** Motional capacitance of the crystal, farads. */
  readonly motionalFarads: number;
  /** Shunt capacitance of its holder. */
  readonly holderFarads: number;
  /** From each leg to ground. */
  readonly legFarads: readonly [number, number];
  /** Of the board, across the crystal. */
  readonly strayFarads: number;
}

/** An ordinary parallel-resonant circuit: two 33 pF capacitors, 4 pF of board, 20 fF motional and 5 pF holder. Common practice. */
export const typicalCrystal: CrystalCircuit = {
  motionalFarads: 20e-15,
  holderFarads: 5e-12,
  legFarads: [33e-12, 33e-12],
  strayFarads: 4e-12,
};

/**
 * How far a probe on one leg pulls a crystal, in parts per million (negative is slower):
 * load = C1 C2 / (C1 + C2) + stray; Δf/f = (Cm/2) [1/(C0 + load with probe) − 1/(C0 + load)]. From the crystal makers' application
 * notes on load capacitance.
 * @example pullOfProbe(12e-12, typicalCrystal) // −35.5
 */
export function pullOfProbe(
  probeFarads: number,
  { motionalFarads, holderFarads, legFarads, strayFarads }: CrystalCircuit,
): number {
  const [first, second] = legFarads;
  const loadWith = (added: number): number => ((first + added) * second) / (first + added + second) + strayFarads;
  return 1e6 * (motionalFarads / 2) * (1 / (holderFarads + loadWith(probeFarads)) - 1 / (holderFarads + loadWith(0)));
}

/** True where the target itself says that probing changes the point: a crystal that starts or stops under the probe. */
export function isChangedByProbing({ words }: Pick<Target, 'words'>): boolean {
  return words.includes('starts-when-probed');
}

import type { Accuracy, AccuracyRange, InstrumentClass } from '../model/instrument-class.ts';
import type { Entered, Target } from '../model/target.ts';
import { convertUnit, halfLastDigit, type Reading, shiftDecimal, valueIn } from '../quantity/reading.ts';
import { findUnit } from '../quantity/unit.ts';
import { computeFrom, fieldsOf, formulas, measuredFields } from './formula.ts';

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
export type Measurand = Pick<Target, 'quantity' | 'unit'>;

/**
 * The doubt of a reading with an instrument. Accuracy is ±(percent of reading + counts × resolution) on the lowest range that holds
 * the figure, as a range-finding meter chooses it; accuracy and half the last digit are each taken as rectangular, divided by √3, and
 * added in squares (JCGM 100:2008, GUM, clauses 4.3.7, 5.1.2 and F.2.2.1).
 *
 * Without an instrument only the digit counts. Undefined where the instrument does not measure the quantity.
 * @example
 * // 4.72 V on the 20 V range of a 2000-count meter, ±(0.5 % + 2 counts of 10 mV): a = 0.0436 V, half digit 0.005 V, u = 0.0253 V
 */
export function assessDoubt(
  reading: Reading,
  { quantity, unit }: Measurand,
  instrument: InstrumentClass | undefined,
): Doubt | undefined {
  const halfDigit = halfLastDigit(reading, unit);
  const value = Math.abs(valueIn(reading, unit));
  const scaled = instrument && chooseRange(value, instrument, { quantity, unit });
  if (instrument !== undefined && scaled === undefined) return undefined;
  const range = scaled?.range;
  const resolution = scaled === undefined ? undefined : (scaled.resolution ?? 2 * halfDigit);
  const fixed = (range?.counts ?? 0) * (resolution ?? 0);
  const gainPercent = range?.percent ?? 0;
  const accuracy = Number.isFinite(value) ? shiftDecimal(gainPercent * value, -2) + fixed : 0;
  return {
    gainPercent,
    fixed,
    accuracy,
    halfDigit,
    resolution,
    inputResistanceOhms: range?.inputResistanceOhms ?? instrument?.inputResistanceOhms,
    isBeyondRange: value > (scaled?.to ?? Number.POSITIVE_INFINITY),
    standardUncertainty: Math.hypot(accuracy, halfDigit) / Math.sqrt(3),
  };
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
  instrument: InstrumentClass,
  { quantity, unit }: Measurand,
): { readonly range: AccuracyRange; readonly to: number; readonly resolution: number | undefined } | undefined {
  const accuracy = findAccuracy(instrument, quantity);
  const scaled = (accuracy?.ranges ?? []).flatMap((range) => {
    const scale = (number: number): number | undefined => convertUnit(number, accuracy?.unit ?? '', unit);
    const to = scale(range.to);
    const resolution = range.resolution === undefined ? undefined : scale(range.resolution);
    return to === undefined ? [] : [{ range, to, resolution }];
  });
  return scaled.find(({ to }) => value <= to) ?? scaled.at(-1);
}

/**
 * Standard uncertainty of a result of about `value`, in the target's unit, every digit of the display being used; undefined where the
 * instrument reads none of what the target asks for. A share counts what the instrument is worth at the best range of each quantity.
 */
export function uncertaintyAt(value: number, target: Target, instrument: InstrumentClass): number | undefined {
  const own = findUnit(target.unit) ?? { base: '%', exponent: 0 };
  const fields = measuredFields(target).filter(({ quantity }) => findAccuracy(instrument, quantity) !== undefined);
  if (fields.length === 0) return undefined;
  if (fields.every(({ unit }) => findUnit(unit)?.base === own.base)) {
    const bare = { kind: 'number', value: value * 10 ** own.exponent, base: own.base, lastDigit: -30 } as const;
    const doubts = fields.map(({ quantity }) => assessDoubt(bare, { quantity, unit: target.unit }, instrument));
    return Math.hypot(
      ...doubts.map((doubt) => Math.hypot(doubt?.accuracy ?? 0, (doubt?.resolution ?? 0) / 2) / Math.sqrt(3)),
    );
  }
  const atFullScale = ({ percent, counts, resolution, to }: AccuracyRange): number =>
    percent + (100 * counts * (resolution ?? 0)) / to;
  const shares = fields.map(({ quantity }) =>
    Math.min(...(findAccuracy(instrument, quantity)?.ranges ?? []).map(atFullScale)),
  );
  const whole = target.computed === 'departure' ? (own.base === 'ppm' ? 1e6 : 100) : Math.abs(value);
  return (Math.hypot(...shares) / 100 / Math.sqrt(3)) * whole;
}

/** How well a point's source resistance is known, as a share of it; our judgement, taken as rectangular. */
const sourceResistanceDoubt = 0.2;

/** A result in the target's unit, with what it rests on. */
export interface Measured {
  readonly value: number;
  readonly standardUncertainty: number;
  /** One for each reading. */
  readonly doubts: readonly Doubt[];
}

/**
 * What readings come to: one alone is freed from what the meter takes away, several are computed into one. `instrumentOf` says what each
 * field was read with; where a field is not measured by it, undefined. `isFinest`: as if every digit of the display had been typed.
 */
export function measure(
  readings: readonly Reading[],
  target: Target,
  instrumentOf: (field: Target) => InstrumentClass | undefined,
  isFinest: boolean = false,
): Measured | undefined {
  const fields = fieldsOf(target);
  const doubts = readings.flatMap((reading, index): Doubt[] => {
    const field = fields[index] ?? target;
    const isExact = target.entered[index]?.isMarked === true || isLeftOut(reading, target.entered[index]);
    const doubt = assessDoubt(reading, field, isExact ? undefined : instrumentOf(field));
    if (doubt === undefined) return [];
    if (isExact) return [{ ...doubt, halfDigit: 0, standardUncertainty: 0 }];
    const finest = doubt.resolution === undefined ? doubt.halfDigit / 10 : doubt.resolution / 2;
    const halfDigit = isFinest ? finest : doubt.halfDigit;
    return [{ ...doubt, halfDigit, standardUncertainty: Math.hypot(doubt.accuracy, halfDigit) / Math.sqrt(3) }];
  });
  const [only] = readings;
  const [doubt] = doubts;
  if (only === undefined || doubt === undefined || doubts.length < readings.length) return undefined;
  if (target.computed === undefined) return { ...freeFromLoading(valueIn(only, target.unit), doubt, target), doubts };
  const figures = fields.map((field, index) => {
    const { base = '%', exponent = 0 } = findUnit(field.unit) ?? {};
    const reading = readings[index];
    const value = reading === undefined ? 0 : valueIn(reading, base);
    const gain = (doubts[index]?.gainPercent ?? 0) / 100 / Math.sqrt(3);
    const uncertainty = shiftDecimal(doubts[index]?.standardUncertainty ?? 0, exponent);
    return { value, uncertainty, shared: Math.min(uncertainty, gain * Math.abs(value)) };
  });
  const { value, uncertainty } = computeFrom(formulas[target.computed], figures, target.unit);
  return { value, standardUncertainty: uncertainty, doubts };
}

/** What may be left out stands in a link as a bare 0. */
function isLeftOut(reading: Reading, entered: Entered | undefined): boolean {
  return entered?.isOptional === true && reading.kind === 'number' && reading.value === 0;
}

function freeFromLoading(
  reading: number,
  { inputResistanceOhms: input, standardUncertainty: own }: Doubt,
  { quantity, sourceResistanceOhms: source }: Target,
): { readonly value: number; readonly standardUncertainty: number } {
  if (source === undefined || input === undefined || !quantity.startsWith('voltage'))
    return { value: reading, standardUncertainty: own };
  const value = correctLoading(reading, source, input);
  const ofCorrection = (sourceResistanceDoubt * Math.abs(value - reading)) / Math.sqrt(3);
  return { value, standardUncertainty: Math.hypot(own * (1 + source / input), ofCorrection) };
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

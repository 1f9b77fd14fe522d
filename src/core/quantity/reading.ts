import { shiftDecimal } from './shift-decimal.ts';
import { type BaseUnit, findUnit } from './unit.ts';

/** What a display showed, in a unit without prefix. */
export type Reading =
  | {
      readonly kind: 'number';
      readonly value: number;
      readonly base: BaseUnit;
      /** Power of ten of the last digit typed: −2 for 4.71 V, 2 for 4.7 kΩ. */
      readonly lastDigit: number;
    }
  /** `OL`: more than the instrument shows. */
  | { readonly kind: 'over-range'; readonly base: BaseUnit };

/**
 * Half of the last digit typed, in `unit`: what rounding to that digit hides at most.
 * 4.71 V hides 0.005 V; an over-range reading hides nothing that a number could say, 0.
 * @example halfLastDigit({ kind: 'number', value: 4.71, base: 'V', lastDigit: -2 }, 'mV') // 5
 */
export function halfLastDigit(reading: Reading, unit: string): number {
  return reading.kind === 'number' ? shiftDecimal(0.5, reading.lastDigit - exponentOf(unit)) : 0;
}

/** The value in `unit`, which measures the same; +∞ for over-range. */
export function valueIn(reading: Reading, unit: string): number {
  return reading.kind === 'number' ? shiftDecimal(reading.value, -exponentOf(unit)) : Number.POSITIVE_INFINITY;
}

/**
 * Converts a number from one unit to another of the same kind, only the prefix changing; undefined where the kinds differ.
 * @example convertUnit(20, 'nF', 'F') // 2e-8
 */
export function convertUnit(value: number, from: string, to: string): number | undefined {
  const source = findUnit(from);
  const target = findUnit(to);
  if (source === undefined || target === undefined || source.base !== target.base) return undefined;
  return shiftDecimal(value, source.exponent - target.exponent);
}

function exponentOf(unit: string): number {
  return findUnit(unit)?.exponent ?? 0;
}

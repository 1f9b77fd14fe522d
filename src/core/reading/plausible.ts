import type { Target } from '../model/target.ts';
import { printReading, type Reading, shiftDecimal, valueIn } from '../quantity/reading.ts';
import { fieldsOf } from './formula.ts';

/** From this many times the highest limit on a slip of the hand is likelier than a fault, where nothing is a healthy reading too. Ours. */
const farAbove = 30;
/** Ten to the power 2.5: nearer to three decades than to two. */
const threeDecades = 316;
/** A unit's highest rail may be off by this much and still be believed; ours. */
const supplyMargin = 1.25;

/**
 * Why a reading can hardly be what the display showed, or undefined: it is three decades away from every limit; with another prefix, or
 * with a decimal point that was left out, it would be healthy; or it is more than the highest supply of the unit. One rule for all
 * targets, about the hand and the range switch, never about the circuit: such a reading is asked about and may be kept.
 * @example findImplausible([volts(47)], speakerDc) // '47 V would be 47 mV with another prefix.'
 */
export function findImplausible(
  readings: readonly Reading[],
  target: Target,
  supplyVolts?: number,
): string | undefined {
  const fields = fieldsOf(target);
  for (const [index, reading] of readings.entries()) {
    const found = findAboveSupply(reading, fields[index], supplyVolts) ?? findSlip(reading, fields[index] ?? target);
    if (found !== undefined) return found;
  }
  return undefined;
}

function findSlip(reading: Reading, { bands, nominal, unit, quantity }: Target): string | undefined {
  if (reading.kind === 'over-range' || reading.value === 0) return undefined;
  const { from: low = Number.NEGATIVE_INFINITY, to: high = Number.POSITIVE_INFINITY } =
    bands.find(({ name }) => name === 'in') ?? {};
  const size = Math.abs(valueIn(reading, unit));
  const top = Math.max(...[...bands.flatMap(({ from, to }) => [from ?? 0, to ?? 0]), nominal ?? 0].map(Math.abs));
  const isFar = Number.isFinite(high) && size > top * (low > 0 ? 3 : farAbove);
  const isWhole = Number.isInteger(reading.lastDigit / 3);
  const isHealthyAt = (places: number): boolean => {
    const moved = shiftDecimal(size, places);
    return Number.isFinite(high) && moved >= low && moved <= high;
  };
  const moveTo = (places: number, what: string): string =>
    `${printReading(reading)} would be ${printReading(move(reading, places))} ${what}.`;
  const point = isFar && isWhole ? [-1, -2].find(isHealthyAt) : undefined;
  const prefix = isFar && isHealthyAt(-3) ? -3 : low > 0 && size < low && isHealthyAt(3) ? 3 : undefined;
  // A meter has no range for thousandths of an ohm, so there the point is what is missing.
  if (prefix !== undefined && (point === undefined || quantity !== 'resistance'))
    return moveTo(prefix, 'with another prefix');
  if (point !== undefined) return moveTo(point, 'with a decimal point');
  if (Number.isFinite(high) && top > 0 && size >= threeDecades * top)
    return `${printReading(reading)} is a thousand times what this point can be expected to show.`;
  return undefined;
}

function move(reading: Extract<Reading, { kind: 'number' }>, places: number): Reading {
  return { ...reading, value: shiftDecimal(reading.value, places), lastDigit: reading.lastDigit + places };
}

function findAboveSupply(
  reading: Reading,
  field: Target | undefined,
  supplyVolts: number | undefined,
): string | undefined {
  if (reading.kind === 'over-range' || field?.quantity !== 'voltage-dc' || supplyVolts === undefined) return undefined;
  if (Math.abs(reading.value) <= supplyMargin * supplyVolts) return undefined;
  return `${printReading(reading)} is more than any supply of this unit, which is at most about ${supplyVolts} V.`;
}

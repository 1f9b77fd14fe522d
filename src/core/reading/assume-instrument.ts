import type { InstrumentClass } from '../model/instrument-class.ts';
import type { Target } from '../model/target.ts';
import { findHighestReading } from './assess-doubt.ts';

/** Assumed where the reader chose none, the first that fits. */
const assumed: readonly string[] = [
  'multimeter-6000',
  'oscilloscope-x10',
  'frequency-counter',
  'esr-meter',
  'capacitance-meter',
  'thermometer',
];

/**
 * The class of instrument to assume without a choice: the 6000-count multimeter where it measures the quantity and its ranges reach
 * `size` (in the target's unit, 0 before the reading is known), else the first other class that does. A ratio is computed from another
 * quantity, so there the target's own families decide. Undefined where no class fits, or where the target is meant for families without
 * one (an insulation tester, which a multimeter does not replace): then only the last digit's doubt counts.
 */
export function assumeInstrument(
  target: Target,
  classes: ReadonlyMap<string, InstrumentClass>,
  size: number = 0,
): InstrumentClass | undefined {
  const first = assumed.flatMap((slug) => classes.get(slug) ?? []);
  const candidates = [...first, ...[...classes.values()].filter((candidate) => !first.includes(candidate))];
  if (target.quantity === 'ratio') {
    return target.instruments.flatMap((family) => candidates.find((candidate) => candidate.family === family) ?? [])[0];
  }
  const isKnown = (family: string): boolean => candidates.some((candidate) => candidate.family === family);
  if (target.instruments.length > 0 && !target.instruments.some(isKnown)) return undefined;
  const measuring = candidates.filter((candidate) => measures(candidate, target));
  const reaching = measuring.find((candidate) => Math.abs(size) <= (findHighestReading(candidate, target) ?? 0));
  return reaching ?? measuring[0];
}

/** Families that measure a kind of quantity in a way of their own: an ESR meter's ohms are of about 100 kHz, and say nothing of a wire. */
const ownWay: ReadonlySet<string> = new Set(['esr-meter']);

/**
 * True where the instrument has figures for what the target asks. A share is computed from another quantity, so only the families that
 * the target names serve there, as they do for instruments with a way of measuring of their own.
 */
export function measures(
  { family, quantities }: Pick<InstrumentClass, 'family' | 'quantities'>,
  target: Pick<Target, 'quantity' | 'instruments'>,
): boolean {
  const isNamed = target.instruments.includes(family);
  if (target.quantity === 'ratio') return isNamed || target.instruments.length === 0;
  return Object.hasOwn(quantities, target.quantity) && (isNamed || !ownWay.has(family));
}

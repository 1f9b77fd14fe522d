import type { InstrumentClass } from '../model/instrument-class.ts';
import type { Target } from '../model/target.ts';
import { findAccuracy, findHighestReading } from './assess-doubt.ts';

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
  const measuring = candidates.filter(({ quantities }) => Object.hasOwn(quantities, target.quantity));
  const reaching = measuring.find((candidate) => Math.abs(size) <= (findHighestReading(candidate, target) ?? 0));
  return reaching ?? measuring[0];
}

/** True where the instrument has figures for the quantity of the target. */
export function measures(instrument: InstrumentClass, target: Pick<Target, 'quantity'>): boolean {
  return target.quantity === 'ratio' || findAccuracy(instrument, target.quantity) !== undefined;
}

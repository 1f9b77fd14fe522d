import type { InstrumentClass } from '../model/instrument-class.ts';
import type { Target } from '../model/target.ts';
import { findHighestReading } from './doubt.ts';
import { measuredFields } from './formula.ts';

/** The name under which a link carries the reader's own accuracy: `own-0.5-2` for ±(0.5 % + 2). */
export function nameOwnAccuracy({ percent, counts }: OwnAccuracy): string {
  return `own-${percent}-${counts}`;
}

/** The accuracy behind such a name, or undefined for any other text: percent to 50, counts to 1000. */
export function readOwnAccuracy(name: string): OwnAccuracy | undefined {
  const found = /^own-(\d{1,2}(?:\.\d{1,4})?)-(\d{1,4})$/.exec(name);
  const [percent, counts] = [Number(found?.[1]), Number(found?.[2])];
  return found !== null && percent <= 50 && counts <= 1000 ? { percent, counts } : undefined;
}

/** Whether a name is one that readings can be judged with: a class, or an accuracy of the reader's own. */
export function isInstrument(name: string, classes: ReadonlyMap<string, InstrumentClass>): boolean {
  return classes.has(name) || readOwnAccuracy(name) !== undefined;
}

/**
 * The instrument a reading is judged with: the one named, where it is known and measures the target, else the one to assume without a
 * choice for a reading of `size` (in the target's unit). Undefined where only the last digit's doubt counts.
 */
export function chooseInstrument(
  name: string | undefined,
  target: Target,
  classes: ReadonlyMap<string, InstrumentClass>,
  size: number = 0,
): InstrumentClass | undefined {
  const own = name === undefined ? undefined : readOwnAccuracy(name);
  if (own !== undefined) return makeOwnInstrument(own, measuredFields(target)[0] ?? target);
  const known = name === undefined ? undefined : classes.get(name);
  return known !== undefined && measures(known, target) ? known : assumeInstrument(target, classes, size);
}

/** Classes that measure a target: those of its own families first, in the order the target names them. */
export function listInstruments(
  target: Target,
  classes: ReadonlyMap<string, InstrumentClass>,
): readonly InstrumentClass[] {
  const rank = ({ family }: InstrumentClass): number => {
    const place = target.instruments.indexOf(family);
    return place < 0 ? target.instruments.length : place;
  };
  return [...classes.values()].filter((one) => measures(one, target)).toSorted((a, b) => rank(a) - rank(b));
}

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
 * The class of instrument to assume without a choice: one with a way of measuring of its own where the target names it, else the
 * 6000-count multimeter where its ranges reach `size` (in the target's unit, 0 before the reading is known), else the first other class
 * that does. Undefined where no class fits, or where
 * the target is meant for families without one (an insulation tester, which a multimeter does not replace): then only the last digit's
 * doubt counts.
 */
export function assumeInstrument(
  target: Target,
  classes: ReadonlyMap<string, InstrumentClass>,
  size: number = 0,
): InstrumentClass | undefined {
  const first = assumed.flatMap((slug) => classes.get(slug) ?? []);
  const candidates = [...first, ...[...classes.values()].filter((candidate) => !first.includes(candidate))];
  const isKnown = (family: string): boolean => candidates.some((candidate) => candidate.family === family);
  if (target.instruments.length > 0 && !target.instruments.some(isKnown)) return undefined;
  const able = candidates.filter((candidate) => measures(candidate, target));
  const meant = able.filter(({ family }) => ownWay.has(family));
  const measuring = meant.length > 0 ? meant : able;
  const reaching = measuring.find((candidate) => Math.abs(size) <= (findHighestReading(candidate, target) ?? 0));
  return reaching ?? measuring[0];
}

/** Families that measure a kind of quantity in a way of their own: an ESR meter's ohms are of about 100 kHz, and say nothing of a wire. */
const ownWay: ReadonlySet<string> = new Set(['esr-meter']);

/**
 * True where the instrument has figures for something that the target asks for; an instrument with a way of measuring of its own serves
 * only where the target names it.
 */
export function measures(
  { family, quantities }: Pick<InstrumentClass, 'family' | 'quantities'>,
  target: Target,
): boolean {
  const isNamed = target.instruments.includes(family);
  const isRead = measuredFields(target).some(({ quantity }) => Object.hasOwn(quantities, quantity));
  return isRead && (isNamed || !ownWay.has(family));
}

/** ±(percent of reading + counts of the last digit). */
export interface OwnAccuracy {
  readonly percent: number;
  readonly counts: number;
}

/**
 * Reads an accuracy as an instrument's leaflet prints it: `±(0.5 % + 2)`, `0.5%+2`, `1,2 % + 10 digits`, `0.8% rdg + 3 dgt`, `2 %`.
 * Percent from 0 to 50, counts from 0 to 1000. Undefined for anything else.
 */
export function parseAccuracy(text: string): OwnAccuracy | undefined {
  if (text.length > 60) return undefined;
  const plain = text
    .normalize('NFKC')
    .replace(/[±()\s]/g, '')
    .replace(/^\+\/?-/, '')
    .toLowerCase();
  const found =
    /^(\d{1,3}(?:[.,]\d{1,6})?)%(?:of)?(?:reading|rdg)?(?:\+(\d{1,4})(?:counts?|digits?|dgts?|d|lsd)?)?$/.exec(plain);
  if (found === null) return undefined;
  const percent = Number((found[1] ?? '').replace(',', '.'));
  const counts = Number(found[2] ?? 0);
  return percent <= 50 && counts <= 1000 ? { percent, counts } : undefined;
}

/**
 * An instrument of the reader's own, for one quantity: counts are counts of the last digit typed, whatever the range.
 * `quantity` and `unit` are the target's.
 */
export function makeOwnInstrument(
  { percent, counts }: OwnAccuracy,
  { quantity, unit, instruments }: Pick<Target, 'quantity' | 'unit' | 'instruments'>,
): InstrumentClass {
  const to = Number.POSITIVE_INFINITY;
  return {
    slug: 'own',
    title: `Own instrument, ±(${percent} % + ${counts})`,
    family: instruments[0] ?? 'multimeter',
    status: 'practice',
    inputResistanceOhms: undefined,
    inputCapacitanceFarads: undefined,
    ohmsPerVolt: undefined,
    thresholds: undefined,
    quantities: {
      [quantity]: { unit, ranges: [{ to, percent, counts, resolution: undefined, inputResistanceOhms: undefined }] },
    },
  };
}

import type { InstrumentClass } from '../model/instrument-class.ts';
import type { Target } from '../model/target.ts';
import { assumeInstrument, measures } from './assume-instrument.ts';
import { makeOwnInstrument, type OwnAccuracy } from './own-instrument.ts';

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
  if (own !== undefined) return makeOwnInstrument(own, { ...target, family: target.instruments[0] ?? 'multimeter' });
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

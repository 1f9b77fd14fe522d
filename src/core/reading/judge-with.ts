import type { InstrumentClass } from '../model/instrument-class.ts';
import type { Target } from '../model/target.ts';
import { parseReading } from '../quantity/parse-reading.ts';
import { valueIn } from '../quantity/reading.ts';
import { chooseInstrument } from './choose-instrument.ts';
import { judgeText } from './judge-reading.ts';
import type { JudgedText } from './judgement.ts';

/**
 * Judges what was typed with the instrument of that name (a class, `own-0.5-2`), or with the one to assume for a reading of this size where
 * there is no name or the instrument does not measure the target. Never throws.
 */
export function judgeWith(
  text: string,
  target: Target,
  name: string | undefined,
  classes: ReadonlyMap<string, InstrumentClass>,
): JudgedText {
  const parsed = parseReading(text, target);
  const size = parsed.kind === 'reading' && parsed.reading.kind === 'number' ? valueIn(parsed.reading, target.unit) : 0;
  return judgeText(text, target, chooseInstrument(name, target, classes, size), [...classes.values()]);
}

import type { InstrumentClass } from '../model/instrument-class.ts';
import { printWord } from '../model/target-text.ts';
import type { Target } from '../model/target.ts';
import { type ParsedReading, parseReading } from '../quantity/parse-reading.ts';
import { type Reading, valueIn } from '../quantity/reading.ts';
import { adviseFamilies, findNotes, findObjections, findRemedies } from './advice.ts';
import { assessDoubt, correctLoading, type Doubt, findHighestReading } from './doubt.ts';
import { chooseInstrument } from './instrument.ts';
import {
  type BandProbability,
  computeBandProbabilities,
  type JudgedText,
  type Judgement,
  type Note,
  verdictProbability,
} from './judgement.ts';

/** What a person typed, read once: a band or word of the target, a reading, or why it is neither. */
export type Entry = ParsedReading | { readonly kind: 'word'; readonly word: string };

/**
 * Reads what a person typed: a band or word of the target first (`none`, `pulsing`), else a reading. Never throws; hopeless text gives a
 * problem whose message stands beside the field.
 */
export function readEntry(text: string, target: Target): Entry {
  const word = text.trim().toLowerCase().replaceAll(' ', '-');
  if (target.words.includes(word) || target.bands.some(({ name }) => name === word)) return { kind: 'word', word };
  return parseReading(text, target);
}

/** The figure in the target's unit, by which the instrument to assume is chosen; 0 for whatever is not a number. */
export function sizeOf(entry: Entry, target: Target): number {
  return entry.kind === 'reading' && entry.reading.kind === 'number' ? valueIn(entry.reading, target.unit) : 0;
}

/**
 * Judges what was typed; a problem stays one.
 * @example judgeEntry(readEntry('4.71 V', rail), rail, meter).verdict // 'too-close' for limits of 4.75 to 5.25 V and ±(0.5 % + 3)
 */
export function judgeEntry(
  entry: Entry,
  target: Target,
  instrument: InstrumentClass | undefined,
  others: readonly InstrumentClass[] = [],
): JudgedText {
  if (entry.kind === 'word') return acceptWord(entry.word, target);
  return entry.kind === 'problem' ? entry : judgeReading(entry.reading, target, instrument, others);
}

/**
 * Judges a reading against a target with the instrument in use. The verdict is the band that holds the true value with a probability of
 * at least 0.95 (JCGM 106:2012, clauses 7 and 8), else `too-close`, with what would settle it among `others`. It is `too-close` too
 * where the target says that this reading fools people, where the sign says that the leads are swapped, and where the probe itself may
 * have stopped the circuit; then `isEvidence` is false. Without an instrument only the last digit's doubt counts.
 */
export function judgeReading(
  reading: Reading,
  target: Target,
  instrument: InstrumentClass | undefined,
  others: readonly InstrumentClass[] = [],
): JudgedText {
  const raw = assessDoubt(reading, target, instrument);
  if (raw === undefined) {
    const message = `${instrument?.title ?? 'This instrument'}: has no figures for this. ${adviseFamilies(target)} Answer with a button, or choose the instrument you read it with.`;
    return { kind: 'problem', problem: { code: 'not-for-this-instrument', message } };
  }
  if (reading.kind === 'over-range') return judgeOverRange(target, instrument);
  const loaded = applyLoading(valueIn(reading, target.unit), raw, target);
  const { value, doubt } = loaded;
  const probabilities = computeBandProbabilities(value, doubt.standardUncertainty, target);
  const numeric = findVerdict(probabilities);
  const withheld = findObjections({
    shown: valueIn(reading, target.unit),
    verdict: numeric,
    doubt,
    target,
    instrument,
  });
  const verdict = withheld.length > 0 ? 'too-close' : numeric;
  const remedies =
    withheld.length > 0
      ? [{ kind: 'correct-first' as const, text: withheld[0]?.text ?? '', instruments: [] }]
      : verdict === 'too-close'
        ? findRemedies({ reading, target, instrument, doubt, value }, others)
        : [];
  return {
    kind: 'judgement',
    verdict,
    probabilities,
    isEvidence: withheld.length === 0,
    value,
    uncertainty: doubt.standardUncertainty,
    unit: target.unit,
    notes: [...withheld, ...loaded.notes, ...findNotes({ shown: value, verdict, doubt, target, instrument })],
    settle: remedies,
  };
}

/** The band with at least 0.95, or `too-close`. */
export function findVerdict(probabilities: readonly BandProbability[]): string {
  return probabilities.find(({ probability }) => probability >= verdictProbability)?.band ?? 'too-close';
}

/** A judgement as one sentence, for the page and its live region. */
export function describeJudgement({ verdict, probabilities, isEvidence }: Judgement): string {
  if (verdict !== 'too-close') return `${printWord(verdict)}.`;
  if (!isEvidence) return 'Not to be trusted as it stands.';
  const [first, second] = probabilities.toSorted((a, b) => b.probability - a.probability);
  const names = [first, second].map((band) => printWord(band?.band ?? '').toLowerCase());
  return `Too close to call: ${names.join(' or ')}.`;
}

function acceptWord(word: string, target: Target): Judgement {
  const bands = computeBandProbabilities(0, 0, target).map(({ band }) => band);
  const names = bands.includes(word) ? bands : [...bands, word];
  return {
    kind: 'judgement',
    verdict: word,
    probabilities: names.map((band) => ({ band, probability: band === word ? 1 : 0 })),
    isEvidence: true,
    value: undefined,
    uncertainty: 0,
    unit: target.unit,
    notes: [],
    settle: [],
  };
}

/** `OL` lies above every limit that the instrument reaches; where a limit lies beyond its ranges it says only so much. */
function judgeOverRange(target: Target, instrument: InstrumentClass | undefined): Judgement {
  const reach =
    (instrument === undefined ? undefined : findHighestReading(instrument, target)) ?? Number.POSITIVE_INFINITY;
  const possible = target.bands.filter(
    (band, index) => index === target.bands.length - 1 || (band.to ?? Number.NEGATIVE_INFINITY) > reach,
  );
  const isSure = possible.length === 1;
  const text = `Over range says more than ${reach} ${target.unit} here, and a limit lies above that.`;
  return {
    kind: 'judgement',
    verdict: isSure ? (possible[0]?.name ?? 'too-close') : 'too-close',
    probabilities: computeBandProbabilities(Number.POSITIVE_INFINITY, 0, target).map(({ band }) => ({
      band,
      probability: possible.some(({ name }) => name === band) ? 1 / possible.length : 0,
    })),
    isEvidence: isSure,
    value: Number.POSITIVE_INFINITY,
    uncertainty: 0,
    unit: target.unit,
    notes: isSure ? [] : [{ kind: 'over-range', text }],
    settle: isSure
      ? []
      : [
          {
            kind: 'other-instrument',
            text: `Use an instrument that reaches further. ${adviseFamilies(target)}`,
            instruments: [],
          },
        ],
  };
}

/** How well a point's source resistance is known, as a share of it; our judgement, taken as rectangular. */
const sourceResistanceDoubt = 0.2;
/** A tester must have ten times the resistance of the circuit (US Navy, NEETS module 21): above this share the correction is large. */
const largeLoading = 0.1;

interface Loaded {
  readonly value: number;
  readonly doubt: Doubt;
  readonly notes: readonly Note[];
}

function applyLoading(reading: number, doubt: Doubt, { quantity, sourceResistanceOhms, unit }: Target): Loaded {
  const input = doubt.inputResistanceOhms;
  if (sourceResistanceOhms === undefined || input === undefined || !quantity.startsWith('voltage'))
    return { value: reading, doubt, notes: [] };
  const value = correctLoading(reading, sourceResistanceOhms, input);
  const share = sourceResistanceOhms / input;
  const ofCorrection = (sourceResistanceDoubt * Math.abs(value - reading)) / Math.sqrt(3);
  const standardUncertainty = Math.hypot(doubt.standardUncertainty * (1 + share), ofCorrection);
  const corrected = { value, doubt: { ...doubt, standardUncertainty } };
  if (Math.abs(value - reading) < doubt.standardUncertainty / 10) return { ...corrected, notes: [] };
  const advice = share > largeLoading ? ' That is a large share: use a meter of higher resistance.' : '';
  const text = `The meter loads this point: without it, it would be at about ${Number(value.toPrecision(4))} ${unit}.${advice}`;
  return { ...corrected, notes: [{ kind: 'loading', text }] };
}

/**
 * Judges what was typed with the instrument of that name (a class, `own-0.5-2`), or with the one to assume for a reading of this size where
 * there is no name or the instrument does not measure the target. Never throws.
 */
export function judgeWith(
  entry: Entry,
  target: Target,
  name: string | undefined,
  classes: ReadonlyMap<string, InstrumentClass>,
): JudgedText {
  const instrument = chooseInstrument(name, target, classes, sizeOf(entry, target));
  return judgeEntry(entry, target, instrument, [...classes.values()]);
}

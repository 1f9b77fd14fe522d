import type { InstrumentClass } from '../model/instrument-class.ts';
import { printBand, printLimit, printNumber, printWord } from '../model/target-text.ts';
import type { Target } from '../model/target.ts';
import { parseReading, type ReadingProblem } from '../quantity/parse-reading.ts';
import { prefixIn, printReading, type Reading, shiftDecimal, valueIn } from '../quantity/reading.ts';
import { findUnit, prefixOf } from '../quantity/unit.ts';
import { adviseFamilies, findNotes, findObjections, findRemedies } from './advice.ts';
import { type Doubt, findHighestReading, measure } from './doubt.ts';
import { fieldsOf, measuredFields } from './formula.ts';
import { chooseInstrument, measures } from './instrument.ts';
import {
  type BandProbability,
  computeBandProbabilities,
  type JudgedText,
  type Judgement,
  type Note,
  verdictProbability,
} from './judgement.ts';

/** What a person typed, read once: a band or word of the target, readings, or why it is neither and in which field. */
export type Entry =
  | { readonly kind: 'word'; readonly word: string }
  | { readonly kind: 'readings'; readonly readings: readonly Reading[] }
  | { readonly kind: 'problem'; readonly problem: ReadingProblem; readonly at: number };

/**
 * Reads what a person typed into the fields of a target, one text for each: a band or word of the target first (`none`, `pulsing`), else
 * readings. What may be left out may be missing. One text alone may also be the result itself, as older links carry it. Never throws;
 * hopeless text gives a problem whose message stands beside the field.
 */
export function readEntry(texts: readonly string[], target: Target): Entry {
  const [first = '', ...rest] = texts.map((text) => text.trim());
  const word = first.toLowerCase().replaceAll(' ', '-');
  if (target.words.includes(word) || target.bands.some(({ name }) => name === word)) return { kind: 'word', word };
  const fields = fieldsOf(target);
  const readings: Reading[] = [];
  for (const [index, field] of fields.entries()) {
    const text = texts[index]?.trim() ?? '';
    const isLeftOut = text === '' && target.entered[index]?.isOptional === true;
    const parsed = parseReading(isLeftOut ? '0' : text, field);
    if (parsed.kind === 'problem') {
      const result = index === 0 && rest.every((other) => other === '') ? parseReading(text, target) : parsed;
      if (result.kind === 'reading' && isResult(result.reading, target))
        return { kind: 'readings', readings: [result.reading] };
      const isMissing = text === '' && fields.length > 1;
      const message = isMissing ? `Enter “${field.title}” as well.` : parsed.problem.message;
      return { kind: 'problem', problem: { ...parsed.problem, message }, at: index };
    }
    readings.push(parsed.reading);
  }
  const standsIn = target.entered.some(({ isOptional }, index) => isOptional && (texts[index] ?? '').trim() !== '');
  if (target.entered[0]?.isOptional === true && !standsIn) {
    const message = `Enter “${fields[0]?.title ?? ''}”, or what stands in for it.`;
    return { kind: 'problem', problem: { code: 'empty', message }, at: 0 };
  }
  const last = readings.findLastIndex((_, index) => (texts[index]?.trim() ?? '') !== '');
  return { kind: 'readings', readings: readings.slice(0, last + 1) };
}

/** A figure in the unit of the result, where that is no unit of what is entered first. */
function isResult({ base }: Reading, target: Target): boolean {
  return target.entered.length > 0 && base !== findUnit(target.entered[0]?.unit ?? '')?.base;
}

/**
 * Judges what was typed; a problem stays one. Each field counts as read with `instrument` where that measures it, else with the one of
 * `others` to assume.
 * @example judgeEntry(readEntry(['4.71 V'], rail), rail, meter).verdict // 'too-close' for limits of 4.75 to 5.25 V and ±(0.5 % + 3)
 */
export function judgeEntry(
  entry: Entry,
  target: Target,
  instrument: InstrumentClass | undefined,
  others: readonly InstrumentClass[] = [],
): JudgedText {
  if (entry.kind === 'word') return acceptWord(entry.word, target);
  return entry.kind === 'problem' ? entry : judgeReadings(entry.readings, target, instrument, others);
}

/**
 * Judges readings against a target with the instrument in use. The verdict is the band that holds the true value with a probability of
 * at least 0.95 (JCGM 106:2012, clauses 7 and 8), else `too-close`, with what would settle it among `others`. It is `too-close` too
 * where the target says that this reading fools people, where the sign says that the leads are swapped, and where the probe itself may
 * have stopped the circuit; then `isEvidence` is false. Without an instrument only the last digit's doubt counts.
 */
function judgeReadings(
  readings: readonly Reading[],
  general: Target,
  instrument: InstrumentClass | undefined,
  others: readonly InstrumentClass[],
): JudgedText {
  const [first] = readings;
  // The result itself, where older links carry it: nothing says with what its parts were read.
  const isGiven = first !== undefined && isResult(first, general) && readings.length === 1;
  const target: Target = isGiven
    ? { ...general, entered: [], computed: undefined }
    : // What fools people about one figure is told by the second.
      { ...general, misreads: readings.length > 1 ? [] : general.misreads };
  const classes = new Map(others.map((one) => [one.slug, one]));
  const pick = (own: InstrumentClass | undefined, field: Target): InstrumentClass | undefined => {
    if (isGiven) return undefined;
    if (target.computed === undefined || own === undefined || measures(own, field)) return own;
    return chooseInstrument(undefined, field, classes);
  };
  const measured = measure(readings, target, (field) => pick(instrument, field));
  if (first === undefined || measured === undefined) {
    const message = `${instrument?.title ?? 'This instrument'}: has no figures for this. ${adviseFamilies(target)} Answer with a button, or choose the instrument you read it with.`;
    return { kind: 'problem', problem: { code: 'not-for-this-instrument', message } };
  }
  if (readings.some(({ kind }) => kind === 'over-range')) {
    if (first.kind === 'over-range') return judgeOverRange(target, instrument);
    const message = 'Over range says nothing here. Take this figure on a range that shows it.';
    return { kind: 'problem', problem: { code: 'over-range', message } };
  }
  const { value, standardUncertainty, doubts } = measured;
  if (!Number.isFinite(value) || !Number.isFinite(standardUncertainty)) {
    const message = 'One of these figures is nothing, so no result follows from them. Read it again.';
    return { kind: 'problem', problem: { code: 'not-a-number', message } };
  }
  const probabilities = computeBandProbabilities(value, standardUncertainty, target);
  const numeric = findVerdict(probabilities);
  const shown = target.computed === undefined ? valueIn(first, target.unit) : value;
  const judged = { shown, value, doubts, target, instrument: isGiven ? undefined : instrument };
  const withheld = findObjections({ ...judged, verdict: numeric });
  const verdict = withheld.length > 0 ? 'too-close' : numeric;
  const decides = (own: InstrumentClass | undefined, isFinest: boolean): boolean => {
    const again = measure(readings, target, (field) => pick(own, field), isFinest);
    if (again === undefined || again.doubts.some(({ isBeyondRange }) => isBeyondRange)) return false;
    return findVerdict(computeBandProbabilities(value, again.standardUncertainty, target)) !== 'too-close';
  };
  const settle =
    withheld.length > 0
      ? [{ kind: 'correct-first' as const, text: withheld[0]?.text ?? '', instruments: [] }]
      : verdict === 'too-close'
        ? findRemedies({ target, instrument, doubts, decides }, others)
        : [];
  return {
    kind: 'judgement',
    verdict,
    probabilities,
    isEvidence: withheld.length === 0,
    value,
    uncertainty: standardUncertainty,
    unit: target.unit,
    notes: [...withheld, ...noteLoading(judged, standardUncertainty), ...findNotes({ ...judged, verdict })],
    settle,
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

/** A tester must have ten times the resistance of the circuit (US Navy, NEETS module 21): above this share the correction is large. */
const largeLoading = 0.1;

function noteLoading(
  { shown, value, doubts, target }: { shown: number; value: number; doubts: readonly Doubt[]; target: Target },
  uncertainty: number,
): readonly Note[] {
  if (Math.abs(value - shown) < uncertainty / 10 || value === shown) return [];
  const share = (target.sourceResistanceOhms ?? 0) / (doubts[0]?.inputResistanceOhms ?? Number.POSITIVE_INFINITY);
  const advice = share > largeLoading ? ' That is a large share: use a meter of higher resistance.' : '';
  const text = `The meter loads this point: without it, it would be at about ${Number(value.toPrecision(4))} ${target.unit}.${advice}`;
  return [{ kind: 'loading', text }];
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
  return judgeEntry(entry, target, instrumentFor(entry, target, name, classes), [...classes.values()]);
}

/** The instrument that counts for what was typed: the one named, or the one to assume for a first reading of this size. */
export function instrumentFor(
  entry: Entry,
  target: Target,
  name: string | undefined,
  classes: ReadonlyMap<string, InstrumentClass>,
): InstrumentClass | undefined {
  const field = measuredFields(target)[0] ?? target;
  const reading = entry.kind === 'readings' ? entry.readings[fieldsOf(target).indexOf(field)] : undefined;
  const size = reading?.kind === 'number' ? valueIn(reading, field.unit) : 0;
  return chooseInstrument(name, field, classes, size);
}

/** What several readings come to, with at most three digits: `49 %`; undefined where nothing is computed from them. */
export function printResult(entry: Entry, target: Target): string | undefined {
  const measured =
    entry.kind === 'readings' && target.computed !== undefined
      ? measure(entry.readings, target, () => undefined)
      : undefined;
  if (measured === undefined || !Number.isFinite(measured.value)) return undefined;
  return printLimit(Number(measured.value.toPrecision(3)), { ...target, compare: 'value' });
}

/** Two-sided 95 % of the normal distribution. */
const coverage = 1.96;

/**
 * What was read, how far it may be off and the zone's limits, all in the prefix of the figure: `47 mV, give or take 0.83 mV. That zone is
 * at most 50 mV.`
 */
export function describeReading(
  { verdict, value, uncertainty, unit }: Judgement,
  entry: Entry,
  target: Target,
): string {
  const [reading] = entry.kind === 'readings' ? entry.readings : [];
  const own = findUnit(unit);
  if (reading === undefined || own === undefined) return '';
  const isComputed = target.computed !== undefined && value !== undefined;
  const doubt = coverage * uncertainty;
  const places = doubt > 0 ? Math.max(0, 1 - Math.floor(Math.log10(doubt))) : 3;
  const figure = isComputed
    ? `${printLimit(Number(value.toFixed(Math.min(places, 12))), { ...target, compare: 'value' })}`
    : printReading(reading);
  const exponent = isComputed ? own.exponent : prefixIn(reading);
  const scaled = scaleTarget(target, own.exponent - exponent, `${prefixOf[exponent] ?? ''}${own.base}`);
  const shown = Number(shiftDecimal(doubt, own.exponent - exponent).toPrecision(2));
  const around = doubt > 0 ? `, give or take ${printNumber(shown)}\u00a0${scaled.unit}` : '';
  const zone = printBand(verdict, scaled);
  return `${figure}${around}.${zone === undefined ? '' : ` That zone is ${zone}.`}`;
}

function scaleTarget(target: Target, places: number, unit: string): Target {
  const move = (edge: number | undefined): number | undefined =>
    edge === undefined ? edge : shiftDecimal(edge, places);
  return {
    ...target,
    unit,
    bands: target.bands.map(({ name, from, to }) => ({ name, from: move(from), to: move(to) })),
  };
}

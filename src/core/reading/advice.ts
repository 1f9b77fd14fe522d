import type { InstrumentClass } from '../model/instrument-class.ts';
import type { Misread, Target } from '../model/target.ts';
import { isNeverNegative } from '../quantity/parse-reading.ts';
import { printQuantity } from '../quantity/reading.ts';
import { type Doubt, isChangedByProbing, pullOfProbe, typicalCrystal, uncertaintyAt } from './doubt.ts';
import { measures } from './instrument.ts';
import { normalInterval, type Note, type Remedy, verdictProbability } from './judgement.ts';

/** What an instrument can do for a target, known before the reading is taken. */
export interface Suitability {
  /**
   * `can`; `only-faults`: it shows a reading to be outside, never inside; `cannot`: the healthy window is narrower than 3.29 standard
   * uncertainties (1.645 where one of its ends is nothing at all), so that only a gross error shows; `does-not-measure`: it has no such range.
   */
  readonly kind: 'can' | 'only-faults' | 'cannot' | 'does-not-measure';
  /** Width of the healthy window, in the target's unit, from 0 where nothing is its lower end; undefined where it has an open side. */
  readonly windowWidth: number | undefined;
  /** Standard uncertainty in the middle of the window, at its one limit, or at 0 where that is its lower end. */
  readonly uncertainty: number;
  /** A sentence for the page, empty where the instrument can. */
  readonly text: string;
}

/** The guard band of 95 % on one side of a limit (ILAC-G8:09/2019, section 4). Two of them that meet leave nothing between them. */
const guardBand = 1.645;

/**
 * Whether the instrument can judge the target, every digit of its display being used. A window with one limit can always be judged, but
 * for an upper limit on what cannot be below zero: there even a reading of nothing must lie a guard band away from it.
 * @example
 * // 4.75 to 5.25 V with ±(5 % + 1 count of 10 mV): u = 0.150 V, window 3.33 u: `only-faults`
 */
export function judgeInstrument(target: Target, instrument: InstrumentClass): Suitability {
  const healthy = target.bands.find(({ name }) => name === 'in');
  const { from, to } = healthy ?? {};
  const endsAtNothing = isNeverNegative(target.quantity) && (from === undefined || from === 0) && to !== undefined;
  const middle = endsAtNothing ? 0 : from === undefined || to === undefined ? (from ?? to ?? 0) : (from + to) / 2;
  const uncertainty = uncertaintyAt(middle, target, instrument);
  if (uncertainty === undefined) {
    const text = `${instrument.title}: has no range for this. ${adviseFamilies(target)}`;
    return { kind: 'does-not-measure', windowWidth: undefined, uncertainty: 0, text };
  }
  if (endsAtNothing) {
    if (to < guardBand * uncertainty) return { ...tooCoarse(instrument), windowWidth: to, uncertainty };
    return { kind: 'can', windowWidth: to, uncertainty, text: '' };
  }
  if (from === undefined || to === undefined) return { kind: 'can', windowWidth: undefined, uncertainty, text: '' };
  const windowWidth = to - from;
  if (windowWidth < 2 * guardBand * uncertainty) return { ...tooCoarse(instrument), windowWidth, uncertainty };
  const half = windowWidth / 2 / uncertainty;
  if (normalInterval(-half, half) < verdictProbability) {
    const text = `${instrument.title}: can show that this is out of range, never that it is in.`;
    return { kind: 'only-faults', windowWidth, uncertainty, text };
  }
  return { kind: 'can', windowWidth, uncertainty, text: '' };
}

function tooCoarse({ title }: InstrumentClass): Pick<Suitability, 'kind' | 'text'> {
  const text = `${title}: too coarse for this window. It can show a gross fault and nothing else; use a better instrument or range.`;
  return { kind: 'cannot', text };
}

/** Which families the target is meant for, in words. */
export function adviseFamilies({ instruments }: Pick<Target, 'instruments'>): string {
  return instruments.length === 0
    ? ''
    : `Meant for: ${instruments.map((family) => family.replaceAll('-', ' ')).join(' or ')}.`;
}

/** Readings that are too close to call, and what they were taken with. */
export interface CloseReadings {
  readonly target: Target;
  readonly instrument: InstrumentClass | undefined;
  readonly doubts: readonly Doubt[];
  /** Whether the same figures would decide if they were read with this instrument; `isFinest`: with every digit of its display. */
  readonly decides: (instrument: InstrumentClass | undefined, isFinest: boolean) => boolean;
}

/**
 * What would settle readings that are too close to call, the cheapest first: all the digits or a better range, another instrument among
 * `others` (those the reader owns), another point. An instrument is named only where it would decide, should it show the same figures.
 */
export function findRemedies(
  { target, instrument, doubts, decides }: CloseReadings,
  others: readonly InstrumentClass[],
): readonly Remedy[] {
  const remedies: Remedy[] = [];
  const coarse = doubts.filter(
    ({ resolution, halfDigit }) => resolution !== undefined && halfDigit > 0.75 * resolution,
  );
  const settledByDigits = coarse.length > 0 && decides(instrument, true);
  if (settledByDigits || coarse.some(({ halfDigit, accuracy }) => halfDigit > accuracy)) {
    remedies.push({
      kind: 'better-range',
      text: 'Turn to the lowest range that shows it and type every digit of the display.',
      instruments: [],
    });
  } else if (instrument === undefined && decides(undefined, true)) {
    remedies.push({ kind: 'better-range', text: 'Read it with one more digit.', instruments: [] });
  }
  const deciding = others.filter(
    (candidate) =>
      !settledByDigits &&
      candidate.slug !== instrument?.slug &&
      measures(candidate, target) &&
      isMeantFor(candidate, target, instrument) &&
      decides(candidate, true),
  );
  if (deciding.length > 0) {
    const titles = deciding.map(({ title }) => lowerFirst(title)).join(', or ');
    const slugs = deciding.map(({ slug }) => slug);
    remedies.push({
      kind: 'other-instrument',
      text: `Read it with another instrument: ${titles}.`,
      instruments: slugs,
    });
  }
  remedies.push({
    kind: 'other-point',
    text: 'Read another point of the same circuit, or an equal neighbour, and compare.',
    instruments: [],
  });
  return remedies;
}

function isMeantFor({ family }: InstrumentClass, { instruments }: Target, used: InstrumentClass | undefined): boolean {
  return instruments.includes(family) || family === used?.family;
}

function lowerFirst(text: string): string {
  return /^[A-Z]{2}/.test(text) ? text : `${text.charAt(0).toLowerCase()}${text.slice(1)}`;
}

/** Readings that have been judged by their numbers alone. */
export interface JudgedNumbers {
  /** As the display showed it, or as it was computed, in the target's unit. */
  readonly shown: number;
  /** Freed from what the meter takes away. */
  readonly value: number;
  readonly verdict: string;
  readonly doubts: readonly Doubt[];
  readonly target: Target;
  readonly instrument: InstrumentClass | undefined;
}

/**
 * Why a reading is not to be believed as it stands, whatever its numbers say: the target knows that it fools people, the leads are
 * swapped, the instrument cannot show such a figure, or the probe may have stopped the circuit.
 */
export function findObjections({ shown, verdict, doubts, target, instrument }: JudgedNumbers): readonly Note[] {
  const beyond = 'That is more than this instrument shows. Read the range switch, the figure and its prefix again.';
  return [
    ...(doubts.some(({ isBeyondRange }) => isBeyondRange) ? [{ kind: 'beyond-range' as const, text: beyond }] : []),
    ...findMisread(shown, target, instrument),
    ...findNegative(shown, target),
    ...findStopped(verdict, target, instrument),
  ];
}

/** What else the reader should know of readings. */
export function findNotes({ value, verdict, doubts, target, instrument }: JudgedNumbers): readonly Note[] {
  const notes: Note[] = [];
  const add = (kind: Note['kind'], text: string): number => notes.push({ kind, text });
  if (verdict === 'reversed') {
    add(
      'reversed',
      `This point is ${target.sign} when healthy. If only the minus was left out, type it; else check which lead is where.`,
    );
  }
  if (
    value !== 0 &&
    doubts.some(({ resolution = 0, halfDigit }) => halfDigit > 0 && 2 * halfDigit < resolution / 100)
  ) {
    add(
      'beyond-range',
      'That is finer than this instrument shows. Read the prefix again: m is a thousandth, k a thousand.',
    );
  }
  if (instrument === undefined) {
    if (doubts.some(({ halfDigit }) => halfDigit > 0))
      add('digits-only', `Only the last digit's doubt is counted. ${adviseFamilies(target)}`);
    return notes;
  }
  const suitability = judgeInstrument(target, instrument);
  if (suitability.kind === 'cannot' || suitability.kind === 'only-faults') add('cannot-judge', suitability.text);
  if (target.instruments.length > 0 && !target.instruments.includes(instrument.family))
    add('other-instrument', adviseFamilies(target));
  const ohms = target.computed === undefined ? doubts[0]?.inputResistanceOhms : undefined;
  const readsLow = verdict === 'low' || verdict === 'none' || verdict === 'too-close';
  if (target.sourceResistanceOhms === undefined && ohms !== undefined && ohms < lowInputOhms && readsLow) {
    const text = `This range puts ${printQuantity(ohms, 'Ω', 3)} on the point: with more than ${printQuantity(ohms / 100, 'Ω', 2)} behind it, it reads low.`;
    add('loading', text);
  }
  const farads = instrument.inputCapacitanceFarads;
  if (isChangedByProbing(target) && farads !== undefined && farads < stoppingFarads) {
    const ppm = Math.abs(pullOfProbe(farads, typicalCrystal));
    add(
      'probe',
      `The probe's ${printQuantity(farads, 'F', 2)} slow a crystal by some ${Number(ppm.toPrecision(2))} ppm: never read its frequency here.`,
    );
  }
  return notes;
}

/** Below this a voltmeter loads ordinary logic and bias points; common practice. */
const lowInputOhms = 1e6;

function findMisread(
  value: number,
  { misreads, compare }: Target,
  instrument: InstrumentClass | undefined,
): readonly Note[] {
  const size = compare === 'magnitude' ? Math.abs(value) : value;
  const applies = ({ instrument: family, from, to }: Misread): boolean =>
    family === instrument?.family &&
    size >= (from ?? Number.NEGATIVE_INFINITY) &&
    size <= (to ?? Number.POSITIVE_INFINITY);
  return misreads.filter(applies).map(({ says }) => ({ kind: 'misread', text: says }));
}

/** Below zero by as much as the lowest limit, where every limit is above zero: something is there, the other way round. */
function findNegative(value: number, { quantity, compare, bands }: Target): readonly Note[] {
  const edges = bands.flatMap(({ from, to }) => [from, to]).filter((edge) => edge !== undefined);
  const lowest = Math.min(...edges);
  if (
    compare !== 'value' ||
    !(quantity === 'voltage-dc' || quantity === 'diode-test') ||
    lowest <= 0 ||
    value > -lowest
  )
    return [];
  return [
    {
      kind: 'negative',
      text: 'The sign is the wrong way round: something is there. Power off, swap the meter leads, read again.',
    },
  ];
}

/** Farads on one leg that stop most crystals; common practice. */
const stoppingFarads = 50e-12;

function findStopped(verdict: string, target: Target, instrument: InstrumentClass | undefined): readonly Note[] {
  const farads = instrument?.inputCapacitanceFarads;
  if (!isChangedByProbing(target) || farads === undefined || farads < stoppingFarads || verdict === 'in') return [];
  const text = `${printQuantity(farads, 'F', 2)} on a crystal usually stops it, so this reading may be the probe's doing. Use a x10 probe, or look after the buffer.`;
  return [{ kind: 'probe', text }];
}

import type { InstrumentClass } from '../model/instrument-class.ts';
import type { Misread, Target } from '../model/target.ts';
import { printQuantity } from '../quantity/print-reading.ts';
import type { Doubt } from './assess-doubt.ts';
import { adviseFamilies, judgeInstrument } from './can-judge.ts';
import type { Note } from './judgement.ts';
import { isChangedByProbing, pullOfProbe, typicalCrystal } from './loading.ts';

/** A reading that has been judged by its numbers alone. */
export interface JudgedNumber {
  /** As the display showed it, in the target's unit. */
  readonly shown: number;
  readonly verdict: string;
  readonly doubt: Doubt;
  readonly target: Target;
  readonly instrument: InstrumentClass | undefined;
}

/**
 * Why a reading is not to be believed as it stands, whatever its numbers say: the target knows that it fools people, the leads are
 * swapped, the instrument cannot show such a figure, or the probe may have stopped the circuit.
 */
export function findObjections({ shown, verdict, doubt, target, instrument }: JudgedNumber): readonly Note[] {
  const beyond = 'That is more than this instrument shows. Check the figure, its prefix and the instrument.';
  return [
    ...(doubt.isBeyondRange ? [{ kind: 'beyond-range' as const, text: beyond }] : []),
    ...findMisread(shown, target, instrument),
    ...findNegative(shown, target),
    ...findStopped(verdict, target, instrument),
  ];
}

/** What else the reader should know of a reading. */
export function findNotes({ shown, verdict, doubt, target, instrument }: JudgedNumber): readonly Note[] {
  const notes: Note[] = [];
  const add = (kind: Note['kind'], text: string): number => notes.push({ kind, text });
  if (verdict === 'reversed') {
    add(
      'reversed',
      `This point is ${target.sign} when healthy. If only the minus was left out, type it; else check which lead is where.`,
    );
  }
  if (doubt.resolution !== undefined && shown !== 0 && 2 * doubt.halfDigit < doubt.resolution / 100) {
    add('beyond-range', 'That is finer than this instrument shows. Check the prefix.');
  }
  if (instrument === undefined) {
    if (!(doubt.halfDigit === 0))
      add('digits-only', `Only the last digit's doubt is counted. ${adviseFamilies(target)}`);
    return notes;
  }
  const suitability = judgeInstrument(target, instrument);
  if (suitability.kind === 'cannot' || suitability.kind === 'only-faults') add('cannot-judge', suitability.text);
  if (target.instruments.length > 0 && !target.instruments.includes(instrument.family))
    add('other-instrument', adviseFamilies(target));
  const ohms = doubt.inputResistanceOhms;
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

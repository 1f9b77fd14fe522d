import type { InstrumentClass } from '../model/instrument-class.ts';
import type { Target } from '../model/target.ts';
import { isNeverNegative } from '../quantity/is-never-negative.ts';
import { findUnit } from '../quantity/unit.ts';
import { assessDoubt } from './assess-doubt.ts';
import { normalInterval } from './normal.ts';
import { verdictProbability } from './judgement.ts';

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
  const base = findUnit(target.unit);
  const bare = { kind: 'number', value: 0, base: base?.base ?? '%', lastDigit: -30 } as const;
  const scale = 10 ** (base?.exponent ?? 0);
  const doubt = assessDoubt({ ...bare, value: middle * scale }, target, instrument);
  if (doubt === undefined) {
    const text = `${instrument.title}: has no range for this. ${adviseFamilies(target)}`;
    return { kind: 'does-not-measure', windowWidth: undefined, uncertainty: 0, text };
  }
  const uncertainty = Math.hypot(doubt.accuracy, (doubt.resolution ?? 0) / 2) / Math.sqrt(3);
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

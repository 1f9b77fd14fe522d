import type { InstrumentClass } from '../model/instrument-class.ts';
import type { Target } from '../model/target.ts';
import { findUnit } from '../quantity/unit.ts';
import { assessDoubt } from './assess-doubt.ts';
import { normalInterval } from './normal.ts';
import { verdictProbability } from './judgement.ts';

/** What an instrument can do for a target, known before the reading is taken. */
export interface Suitability {
  /**
   * `can`; `only-faults`: it shows a reading to be outside, never inside; `cannot`: the healthy window is narrower than 3.29 standard
   * uncertainties, so that only a gross error shows; `does-not-measure`: it has no such range.
   */
  readonly kind: 'can' | 'only-faults' | 'cannot' | 'does-not-measure';
  /** Width of the healthy window, in the target's unit; undefined where it has an open side. */
  readonly windowWidth: number | undefined;
  /** Standard uncertainty in the middle of the window, or at its one limit. */
  readonly uncertainty: number;
  /** A sentence for the page, empty where the instrument can. */
  readonly text: string;
}

/** Twice 1.645: two guard bands of 95 % meet and leave nothing between them (ILAC-G8:09/2019, section 4). */
const guardBands = 3.29;

/**
 * Whether the instrument can judge the target, every digit of its display being used. A window with one limit can always be judged.
 * @example
 * // 4.75 to 5.25 V with ±(5 % + 1 count of 10 mV): u = 0.150 V, window 3.33 u: `only-faults`
 */
export function judgeInstrument(target: Target, instrument: InstrumentClass): Suitability {
  const healthy = target.bands.find(({ name }) => name === 'in');
  const { from, to } = healthy ?? {};
  const middle = from === undefined || to === undefined ? (from ?? to ?? 0) : (from + to) / 2;
  const base = findUnit(target.unit);
  const bare = { kind: 'number', value: 0, base: base?.base ?? '%', lastDigit: -30 } as const;
  const scale = 10 ** (base?.exponent ?? 0);
  const doubt = assessDoubt({ ...bare, value: middle * scale }, target, instrument);
  if (doubt === undefined) {
    const text = `${instrument.title}: has no range for this. ${adviseFamilies(target)}`;
    return { kind: 'does-not-measure', windowWidth: undefined, uncertainty: 0, text };
  }
  const uncertainty = Math.hypot(doubt.accuracy, (doubt.resolution ?? 0) / 2) / Math.sqrt(3);
  if (from === undefined || to === undefined) return { kind: 'can', windowWidth: undefined, uncertainty, text: '' };
  const windowWidth = to - from;
  if (windowWidth < guardBands * uncertainty) {
    const text = `${instrument.title}: too coarse for this window. It can show a gross fault and nothing else; use a better instrument or range.`;
    return { kind: 'cannot', windowWidth, uncertainty, text };
  }
  const half = windowWidth / 2 / uncertainty;
  if (normalInterval(-half, half) < verdictProbability) {
    const text = `${instrument.title}: can show that this is out of range, never that it is in.`;
    return { kind: 'only-faults', windowWidth, uncertainty, text };
  }
  return { kind: 'can', windowWidth, uncertainty, text: '' };
}

/** Which families the target is meant for, in words. */
export function adviseFamilies({ instruments }: Pick<Target, 'instruments'>): string {
  return instruments.length === 0
    ? ''
    : `Meant for: ${instruments.map((family) => family.replaceAll('-', ' ')).join(' or ')}.`;
}

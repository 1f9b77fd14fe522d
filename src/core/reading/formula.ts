import type { Entered, FormulaName, Target } from '../model/target.ts';
import { type BaseUnit, findUnit } from '../quantity/unit.ts';

/** How several figures become one number. */
export interface Formula {
  /** For people; `a`, `b` … are the figures in their order. */
  readonly says: string;
  /** Where it comes from. */
  readonly source: string;
  /** From units without prefix to the unit without prefix of the result; a share of one where that is per cent or ppm. */
  readonly compute: (entered: readonly number[]) => number;
  /** Which figures it takes, in words. */
  readonly takes: string;
  /** Units of the figures and of the result, without prefix; `x` is any, the same throughout. */
  readonly units: readonly string[];
}

/** What an average-reading meter shows on its ac range, times this, is half the height of a saw-tooth: 2 ÷ 1.111, the form factor of the sine. */
const halfSaw = 1.8;

const fromRippleFormula =
  'charge I ÷ (2 × f) lost between two peaks, full wave; an upper estimate. A saw-tooth is 3.6 times what an average-reading meter shows on ac';

/** Every way of computing there is; content can name no other. */
export const formulas: Readonly<Record<FormulaName, Formula>> = {
  ratio: {
    says: 'a ÷ b',
    source: 'Ohm’s law',
    compute: ([a = 0, b = 0]) => a / b,
    takes: 'volts and ohms for amperes, or volts and amperes for ohms',
    units: ['V Ω A', 'V A Ω'],
  },
  percent: {
    says: '100 × a ÷ b',
    source: 'arithmetic',
    compute: ([a = 0, b = 0]) => a / b,
    takes: 'two figures in one unit, for %',
    units: ['x x %'],
  },
  difference: {
    says: 'a − b',
    source: 'arithmetic',
    compute: ([a = 0, b = 0]) => a - b,
    takes: 'two figures in the unit of the target',
    units: ['x x x'],
  },
  sum: {
    says: 'a + b',
    source: 'arithmetic',
    compute: ([a = 0, b = 0]) => a + b,
    takes: 'two figures in the unit of the target',
    units: ['x x x'],
  },
  trough: {
    says: 'a − 1.8 × b',
    source: 'half a saw-tooth below its mean is 1.8 times what an average-reading meter shows on ac (2 ÷ 1.111)',
    compute: ([a = 0, b = 0]) => a - halfSaw * b,
    takes: 'dc volts and ac volts rms, for volts',
    units: ['V V rms V'],
  },
  departure: {
    says: '(a ÷ b − 1) × 100 %, or × 1 000 000 ppm',
    source: 'arithmetic',
    compute: ([a = 0, b = 0]) => (a - b) / b,
    takes: 'two figures in one unit, for % or ppm',
    units: ['x x %', 'x x ppm'],
  },
  peak: {
    says: '100 × a ÷ (1.414 × b)',
    source: 'the peak of a sine is √2 times its rms value',
    compute: ([a = 0, b = 0]) => a / (Math.SQRT2 * b),
    takes: 'dc volts and ac volts rms, for %',
    units: ['V V rms %'],
  },
  ripple: {
    says: '100 × (a + 3.6 × b) ÷ (c ÷ (2 × e × d))',
    source: fromRippleFormula,
    compute: ([a = 0, b = 0, c = 0, d = 0, e = 0]) => (a + 2 * halfSaw * b) / findRipple(c, e, d),
    takes: 'volts peak to peak or ac volts rms, amperes, farads and hertz, for %',
    units: ['Vpp V rms A F Hz %'],
  },
  leakage: {
    says: '100 × (a ÷ 1 kΩ) ÷ (0.01 µA × b in µF × c in V, at least 3 µA)',
    source: 'the leakage limit on the sheets of ordinary electrolytic series',
    compute: ([a = 0, b = 0, c = 0]) => a / 1000 / Math.max(3e-6, 0.01 * b * c),
    takes: 'volts over 1 kΩ, farads and rated volts, for %',
    units: ['V F V %'],
  },
  loss: {
    says: '100 × a ÷ (tan δ ÷ (2 × π × 120 Hz × b)), tan δ by the class of c',
    source: 'the meaning of the loss factor, with the factors on the sheets of ordinary electrolytic series',
    compute: ([a = 0, b = 0, c = 0]) => a / findFreshEsr(b, c),
    takes: 'ohms, farads and rated volts, for %',
    units: ['Ω F V %'],
  },
};

/** Whether a formula takes figures in these units and gives one in that. */
export function fits({ units }: Formula, entered: readonly BaseUnit[], result: BaseUnit): boolean {
  return units.some((wanted) => wanted.replaceAll('x', entered[0] ?? '') === [...entered, result].join(' '));
}

/** Rated volts and loss factor at 120 Hz of an ordinary series; the factor holds up to the next class. */
const lossFactors = [
  [6.3, 0.23],
  [10, 0.2],
  [16, 0.16],
  [25, 0.14],
  [35, 0.12],
  [50, 0.1],
  [63, 0.09],
  [100, 0.08],
] as const;

/** Series resistance at 120 Hz of a capacitor with this loss factor, ohms. */
export function findLossOhms(factor: number, farads: number): number {
  return factor / (2 * Math.PI * 120 * farads);
}

/** Ripple of a full-wave rectifier, volts peak to peak: the charge lost between two peaks; an upper estimate. */
export function findRipple(amperes: number, hertz: number, farads: number): number {
  return amperes / (2 * hertz * farads);
}

/**
 * Series resistance at 120 Hz allowed in a new electrolytic, ohms: tan δ ÷ (2π × 120 Hz × C), 0.02 more for each further 1000 µF.
 * @example findFreshEsr(100e-6, 16) // 2.12
 */
export function findFreshEsr(farads: number, ratedVolts: number): number {
  const [, factor] = lossFactors.findLast(([volts]) => volts <= ratedVolts) ?? lossFactors[0];
  const more = 0.02 * Math.max(0, farads / 1e-3 - 1);
  return findLossOhms(factor + more, farads);
}

/**
 * What is entered for a target, each as a target of its own without limits: one alone, the target itself, where nothing is computed.
 * The instruments stay those of the target.
 */
export function fieldsOf(target: Target): readonly Target[] {
  if (target.computed === undefined) return [target];
  return target.entered.map(({ name, quantity, unit }) => ({
    ...target,
    title: name,
    quantity,
    unit,
    nominal: undefined,
    bands: [],
    compare: 'value',
    words: [],
    misreads: [],
    entered: [],
    computed: undefined,
  }));
}

/** Those that an instrument reads, without what stands on a part or a label. */
export function measuredFields(target: Target): readonly Target[] {
  return fieldsOf(target).filter((_, index) => target.entered[index]?.isMarked !== true);
}

/** A figure with its standard uncertainty, both in a unit without prefix. */
export interface Figure {
  readonly value: number;
  readonly uncertainty: number;
  /** The part of it in proportion to the value, which readings of one instrument may share. */
  readonly shared: number;
}

/**
 * The result and its combined standard uncertainty, in `unit`: the squares of what each figure's own uncertainty does to the result are
 * added (JCGM 100:2008, GUM, clause 5.1.2), each effect as half the change from one uncertainty below the figure to one above it (clause
 * 5.1.3, note 2). The proportional error of one instrument may be the same in all its readings or not; where it would add up, it does.
 */
export function computeFrom(
  formula: Formula,
  figures: readonly Figure[],
  unit: string,
): { readonly value: number; readonly uncertainty: number } {
  const { base, exponent } = findUnit(unit) ?? { base: '%', exponent: 0 };
  const scale = base === '%' ? 100 : base === 'ppm' ? 1e6 : 10 ** -exponent;
  const values = figures.map(({ value }) => value);
  const effectOf = (index: number, size: number): number => {
    const moved = (by: number): number => formula.compute(values.map((one, at) => (at === index ? one + by : one)));
    return size === 0 ? 0 : (moved(size) - moved(-size)) / 2;
  };
  const shared = figures.map(({ shared: size }, index) => effectOf(index, size));
  const own = figures.map(({ uncertainty, shared: size }, index) =>
    effectOf(index, Math.sqrt(Math.max(0, uncertainty ** 2 - size ** 2))),
  );
  const together = Math.max(Math.abs(shared.reduce((sum, one) => sum + one, 0)), Math.hypot(...shared));
  return { value: scale * formula.compute(values), uncertainty: scale * Math.hypot(together, ...own) };
}

/** The formula with the names of the figures in place of its letters: `100 × output pin ÷ supply pin`. */
export function sayFormula(name: FormulaName, entered: readonly Entered[]): string {
  return formulas[name].says.replaceAll(/(?<![\wδ])[a-e](?!\w)/gu, (letter) => {
    const figure = entered[(letter.codePointAt(0) ?? 0) - ('a'.codePointAt(0) ?? 0)];
    return figure?.name ?? letter;
  });
}

import type { Target } from '../model/target.ts';

/**
 * What the point would read without the meter: V × (1 + source resistance ÷ input resistance), the voltage divider of the two.
 * Resistances in ohms; the result is in the unit of `reading`. An infinite input resistance changes nothing.
 * @example correctLoading(4.7619, 500_000, 10_000_000) // 5.000 V: 10 V across 1 MΩ + 1 MΩ, read with a 10 MΩ meter
 */
export function correctLoading(reading: number, sourceResistanceOhms: number, inputResistanceOhms: number): number {
  return reading * (1 + sourceResistanceOhms / inputResistanceOhms);
}

/**
 * Voltage and resistance of a source from readings on two ranges of a pointer meter, whose resistances differ:
 * E = V1 V2 (R2 − R1) / (V1 R2 − V2 R1), source = R1 (E/V1 − 1). Volts and ohms. Undefined where the two readings do not belong to
 * one source (the denominator or the result is not positive).
 * @example recoverSource({ reading: 1.4286, inputResistanceOhms: 200_000 }, { reading: 2.5, inputResistanceOhms: 500_000 })
 * // { voltage: 5.000, resistanceOhms: 500_000 }
 */
export function recoverSource(
  one: LoadedReading,
  other: LoadedReading,
): { readonly voltage: number; readonly resistanceOhms: number } | undefined {
  const denominator = one.reading * other.inputResistanceOhms - other.reading * one.inputResistanceOhms;
  const voltage = (one.reading * other.reading * (other.inputResistanceOhms - one.inputResistanceOhms)) / denominator;
  const resistanceOhms = one.inputResistanceOhms * (voltage / one.reading - 1);
  return Number.isFinite(voltage) && resistanceOhms >= 0 ? { voltage, resistanceOhms } : undefined;
}

export interface LoadedReading {
  /** Volts. */
  readonly reading: number;
  readonly inputResistanceOhms: number;
}

/** A crystal oscillator's parts. */
export interface CrystalCircuit {
  /** Motional capacitance of the crystal, farads. */
  readonly motionalFarads: number;
  /** Shunt capacitance of its holder. */
  readonly holderFarads: number;
  /** From each leg to ground. */
  readonly legFarads: readonly [number, number];
  /** Of the board, across the crystal. */
  readonly strayFarads: number;
}

/** An ordinary parallel-resonant circuit: two 33 pF capacitors, 4 pF of board, 20 fF motional and 5 pF holder. Common practice. */
export const typicalCrystal: CrystalCircuit = {
  motionalFarads: 20e-15,
  holderFarads: 5e-12,
  legFarads: [33e-12, 33e-12],
  strayFarads: 4e-12,
};

/**
 * How far a probe on one leg pulls a crystal, in parts per million (negative is slower):
 * load = C1 C2 / (C1 + C2) + stray; Δf/f = (Cm/2) [1/(C0 + load with probe) − 1/(C0 + load)]. From the crystal makers' application
 * notes on load capacitance.
 * @example pullOfProbe(12e-12, typicalCrystal) // −35.5
 */
export function pullOfProbe(
  probeFarads: number,
  { motionalFarads, holderFarads, legFarads, strayFarads }: CrystalCircuit,
): number {
  const [first, second] = legFarads;
  const loadWith = (added: number): number => ((first + added) * second) / (first + added + second) + strayFarads;
  return 1e6 * (motionalFarads / 2) * (1 / (holderFarads + loadWith(probeFarads)) - 1 / (holderFarads + loadWith(0)));
}

/** True where the target itself says that probing changes the point: a crystal that starts or stops under the probe. */
export function isChangedByProbing({ words }: Pick<Target, 'words'>): boolean {
  return words.includes('starts-when-probed');
}

import { type BaseUnit, findUnit, prefixOf, takesPrefix } from '../quantity/unit.ts';

/** Powers of ten of the prefixes that bench readings of a unit come in. */
const commonPrefixes: Readonly<Partial<Record<BaseUnit, readonly number[]>>> = {
  V: [-3, 0],
  'V rms': [-3, 0],
  Vpp: [-3, 0],
  A: [-6, -3, 0],
  Ω: [-3, 0, 3, 6],
  F: [-12, -9, -6, -3],
  Hz: [0, 3, 6],
  s: [-9, -6, -3, 0],
};

/** What a keypad for one kind of reading holds beside the figures. */
export interface KeypadKeys {
  /** Units with their prefix, smallest first; one alone where the unit takes none. */
  readonly units: readonly string[];
  /** The reading may be below zero. */
  readonly hasSign: boolean;
  /** The display may show over-range. */
  readonly hasOverRange: boolean;
}

/**
 * Keys that suit a target's quantity and unit.
 * @example listKeys({ quantity: 'resistance', unit: 'kΩ' }).units // ['mΩ', 'Ω', 'kΩ', 'MΩ']
 */
export function listKeys({ quantity, unit }: { readonly quantity: string; readonly unit: string }): KeypadKeys {
  const own = findUnit(unit);
  const units =
    own === undefined || !takesPrefix(own.base)
      ? [unit]
      : (commonPrefixes[own.base] ?? [0]).map((exponent) => `${prefixOf[exponent] ?? ''}${own.base}`);
  return {
    units,
    hasSign: ['voltage-dc', 'temperature', 'ratio', 'current', 'diode-test'].includes(quantity),
    hasOverRange: quantity === 'resistance' || quantity === 'diode-test',
  };
}

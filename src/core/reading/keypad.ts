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

/** A key of the on-screen keypad: what it says and what it does to the entry. */
export type Key =
  | { readonly kind: 'figure'; readonly text: string }
  | { readonly kind: 'unit'; readonly text: string }
  | { readonly kind: 'word'; readonly text: string }
  | { readonly kind: 'sign' }
  | { readonly kind: 'erase' };

/** Longest entry that keys make; what is typed or pasted may be longer and is answered with a message. */
const longestEntry = 24;

/**
 * The entry after one key. Figures go in front of the unit, a unit replaces the one that stands there, the sign turns, a word replaces
 * all, and erasing takes the unit first, then figure by figure.
 * @example pressKey('4.7 kΩ', { kind: 'figure', text: '1' }) // '4.71 kΩ'
 * @example pressKey('4.7 kΩ', { kind: 'unit', text: 'MΩ' }) // '4.7 MΩ'
 */
export function pressKey(entry: string, key: Key): string {
  const { figure, unit } = splitEntry(entry);
  switch (key.kind) {
    case 'word':
      return key.text;
    case 'sign':
      return join(/^[-−]/.test(figure) ? figure.slice(1) : `-${figure}`, unit);
    case 'unit':
      return join(figure, key.text === unit ? '' : key.text);
    case 'erase':
      return unit === '' ? figure.slice(0, -1) : figure;
    case 'figure':
      if (entry.length >= longestEntry || (key.text === '.' && /[.,]/.test(figure))) return entry;
      return join(key.text === '.' && !/\d/.test(figure) ? `${figure}0.` : `${figure}${key.text}`, unit);
  }
}

/** Figure and unit of an entry; a word such as `OL` counts as neither, so that the next figure replaces it. */
function splitEntry(entry: string): { readonly figure: string; readonly unit: string } {
  const [, figure = '', unit = ''] = /^([-−+]?[\d.,]*)\s*(.*)/.exec(entry.trim()) ?? [];
  return { figure, unit: figure === '' && /^(o\.?l|open|short)/i.test(unit) ? '' : unit };
}

function join(figure: string, unit: string): string {
  return `${figure} ${unit}`.trim();
}

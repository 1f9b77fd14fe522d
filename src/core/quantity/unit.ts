/** Units without prefix, written as targets print them. */
export type BaseUnit =
  'V' | 'V rms' | 'Vpp' | 'A' | 'Ω' | 'F' | 'Hz' | 's' | '%' | 'ppm' | '°C' | '°F' | 'H' | 'W' | 'dB';

/** A unit with its SI prefix: `mVpp` is { base: 'Vpp', exponent: -3 }. */
export interface MeasureUnit {
  readonly base: BaseUnit;
  /** Power of ten of the prefix: −12, −9, −6, −3, 0, 3, 6 or 9. */
  readonly exponent: number;
}

interface UnitRow {
  readonly base: BaseUnit;
  /** In a link: letters only. */
  readonly ascii: string;
  /** What it measures, for messages. */
  readonly measures: string;
  readonly takesPrefix: boolean;
  /** Lower case, spaces, dots and hyphens taken out. */
  readonly aliases: readonly string[];
}

/** SI Brochure, 9th edition 2019, tables 2, 4 and 7; the rest are the trade's own ways of writing them. */
const rows: readonly UnitRow[] = [
  { base: 'V', ascii: 'V', measures: 'volts', takesPrefix: true, aliases: ['v', 'volt', 'volts', 'vdc', 'v=', 'v⎓'] },
  {
    base: 'V rms',
    ascii: 'Vrms',
    measures: 'ac volts rms',
    takesPrefix: true,
    aliases: ['vrms', 'vac', 'veff', 'v~', 'v∿', 'voltrms', 'voltsrms', 'voltac', 'voltsac'],
  },
  {
    base: 'Vpp',
    ascii: 'Vpp',
    measures: 'volts peak to peak',
    takesPrefix: true,
    aliases: ['vpp', 'vptp', 'vpkpk', 'vpeaktopeak'],
  },
  {
    base: 'A',
    ascii: 'A',
    measures: 'amperes',
    takesPrefix: true,
    aliases: ['a', 'amp', 'amps', 'ampere', 'amperes', 'adc'],
  },
  { base: 'Ω', ascii: 'ohm', measures: 'ohms', takesPrefix: true, aliases: ['ω', 'ohm', 'ohms', 'r'] },
  { base: 'F', ascii: 'F', measures: 'farads', takesPrefix: true, aliases: ['f', 'farad', 'farads'] },
  { base: 'Hz', ascii: 'Hz', measures: 'hertz', takesPrefix: true, aliases: ['hz', 'hertz'] },
  { base: 's', ascii: 's', measures: 'seconds', takesPrefix: true, aliases: ['s', 'sec', 'secs', 'second', 'seconds'] },
  { base: '%', ascii: 'pct', measures: 'per cent', takesPrefix: false, aliases: ['%', 'pct', 'percent'] },
  { base: 'ppm', ascii: 'ppm', measures: 'parts per million', takesPrefix: false, aliases: ['ppm'] },
  {
    base: '°C',
    ascii: 'degC',
    measures: 'degrees Celsius',
    takesPrefix: false,
    aliases: ['°c', 'c', 'oc', '°', 'degc', 'degreesc', 'celsius'],
  },
  {
    base: '°F',
    ascii: 'degF',
    measures: 'degrees Fahrenheit',
    takesPrefix: false,
    aliases: ['°f', 'degf', 'degreesf', 'fahrenheit'],
  },
  { base: 'H', ascii: 'H', measures: 'henries', takesPrefix: true, aliases: ['h', 'henry', 'henries'] },
  { base: 'W', ascii: 'W', measures: 'watts', takesPrefix: true, aliases: ['w', 'watt', 'watts'] },
  { base: 'dB', ascii: 'dB', measures: 'decibels', takesPrefix: false, aliases: ['db'] },
];

/** SI prefixes a bench uses. Capital P, N, U and K are what all-capital typing leaves of p, n, u and k. */
const prefixes: Readonly<Record<string, number>> = {
  p: -12,
  P: -12,
  n: -9,
  N: -9,
  u: -6,
  U: -6,
  μ: -6,
  m: -3,
  k: 3,
  K: 3,
  M: 6,
  meg: 6,
  Meg: 6,
  MEG: 6,
  G: 9,
};

/** Printed prefixes, by power of ten. */
export const prefixOf: Readonly<Record<number, string>> = {
  [-12]: 'p',
  [-9]: 'n',
  [-6]: 'µ',
  [-3]: 'm',
  0: '',
  3: 'k',
  6: 'M',
  9: 'G',
};

/** What follows a number. */
export type UnitText =
  | { readonly kind: 'unit'; readonly unit: MeasureUnit }
  /** A prefix alone: `4.7k`. */
  | { readonly kind: 'prefix'; readonly exponent: number }
  | { readonly kind: 'unknown' };

/**
 * Reads what a person or an author writes for a unit: `kΩ`, `Kohm`, `uF`, `µF`, `V rms`, `Vp-p`, `mVAC`, `pct`, `°C`, or a prefix
 * alone. Case matters only between `m` and `M`.
 * @example readUnit('kohm') // { kind: 'unit', unit: { base: 'Ω', exponent: 3 } }
 */
export function readUnit(text: string): UnitText {
  const plain = text.normalize('NFKC').replace(/[\s._-]/g, '');
  const prefixAlone = ownNumber(prefixes, plain);
  if (prefixAlone !== undefined) return { kind: 'prefix', exponent: prefixAlone };
  const whole = rows.find(({ aliases }) => aliases.includes(plain.toLowerCase()));
  if (whole !== undefined) return { kind: 'unit', unit: { base: whole.base, exponent: 0 } };
  for (const length of [3, 1]) {
    const exponent = ownNumber(prefixes, plain.slice(0, length));
    const rest = plain.slice(length).toLowerCase();
    const row = rows.find(({ aliases, takesPrefix }) => takesPrefix && aliases.includes(rest));
    if (exponent !== undefined && row !== undefined) return { kind: 'unit', unit: { base: row.base, exponent } };
  }
  return { kind: 'unknown' };
}

/** The unit an author wrote (`mVpp`, `kΩ`), or undefined where it is none. */
export function findUnit(text: string): MeasureUnit | undefined {
  const read = readUnit(text);
  return read.kind === 'unit' ? read.unit : undefined;
}

/** Letters for a link: `ohm`, `Vrms`, `pct`. */
export function asciiOf(base: BaseUnit): string {
  return findRow(base).ascii;
}

/** What a unit measures, in words for a message: `volts peak to peak`. */
export function measuresOf(base: BaseUnit): string {
  return findRow(base).measures;
}

/** False for per cent, ppm, degrees and decibels. */
export function takesPrefix(base: BaseUnit): boolean {
  return findRow(base).takesPrefix;
}

function findRow(base: BaseUnit): UnitRow {
  const row = rows.find((candidate) => candidate.base === base);
  if (row === undefined) throw new Error(`The unit ${base} has no row.`);
  return row;
}

function ownNumber(table: Readonly<Record<string, number>>, key: string): number | undefined {
  return Object.hasOwn(table, key) ? table[key] : undefined;
}

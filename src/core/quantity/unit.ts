/** Units without prefix, written as targets print them. */
export type BaseUnit =
  'V' | 'V rms' | 'Vpp' | 'A' | 'Ω' | 'F' | 'Hz' | 's' | '%' | 'ppm' | '°C' | '°F' | 'H' | 'W' | 'dB';

/** A unit with its SI prefix: `mVpp` is { base: 'Vpp', exponent: -3 }. */
export interface MeasureUnit {
  readonly base: BaseUnit;
  /** Power of ten of the prefix: −12, −9, −6, −3, 0, 3, 6 or 9. */
  readonly exponent: number;
}

/** In a link: letters only. Aliases: lower case, spaces, dots and hyphens taken out, one blank between them. */
type UnitRow = readonly [base: BaseUnit, ascii: string, measures: string, aliases: string];

/** SI Brochure, 9th edition 2019, tables 2, 4 and 7; the rest are the trade's own ways of writing them. */
const rows: readonly UnitRow[] = [
  ['V', 'V', 'volts', 'v volt volts vdc v= v⎓'],
  ['V rms', 'Vrms', 'ac volts rms', 'vrms vac veff v~ v∿ voltrms voltsrms voltac voltsac'],
  ['Vpp', 'Vpp', 'volts peak to peak', 'vpp vptp vpkpk vpeaktopeak'],
  ['A', 'A', 'amperes', 'a amp amps ampere amperes adc'],
  ['Ω', 'ohm', 'ohms', 'ω ohm ohms r'],
  ['F', 'F', 'farads', 'f farad farads'],
  ['Hz', 'Hz', 'hertz', 'hz hertz'],
  ['s', 's', 'seconds', 's sec secs second seconds'],
  ['%', 'pct', 'per cent', '% pct percent'],
  ['ppm', 'ppm', 'parts per million', 'ppm'],
  ['°C', 'degC', 'degrees Celsius', '°c c oc ° degc degreesc celsius'],
  ['°F', 'degF', 'degrees Fahrenheit', '°f degf degreesf fahrenheit'],
  ['H', 'H', 'henries', 'h henry henries'],
  ['W', 'W', 'watts', 'w watt watts'],
  ['dB', 'dB', 'decibels', 'db'],
];
const bare: ReadonlySet<BaseUnit> = new Set(['%', 'ppm', '°C', '°F', 'dB']);
const byAlias: ReadonlyMap<string, BaseUnit> = new Map(
  rows.flatMap(([base, , , aliases]) => aliases.split(' ').map((alias) => [alias, base] as const)),
);

/** SI prefixes a bench uses. Capital P, N, U and K are what all-capital typing leaves of p, n, u and k. */
const prefixes: ReadonlyMap<string, number> = new Map(
  [['p', 'P'], ['n', 'N'], ['u', 'U', 'μ'], ['m'], [], ['k', 'K'], ['M', 'meg', 'Meg', 'MEG'], ['G']].flatMap(
    (names, index) => names.map((name) => [name, 3 * index - 12] as const),
  ),
);

/** Printed prefixes, by power of ten. */
export const prefixOf: Readonly<Record<number, string>> = Object.fromEntries(
  ['p', 'n', 'µ', 'm', '', 'k', 'M', 'G'].map((name, index) => [3 * index - 12, name]),
);

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
  const prefixAlone = prefixes.get(plain);
  if (prefixAlone !== undefined) return { kind: 'prefix', exponent: prefixAlone };
  const whole = byAlias.get(plain.toLowerCase());
  if (whole !== undefined) return { kind: 'unit', unit: { base: whole, exponent: 0 } };
  for (const length of [3, 1]) {
    const exponent = prefixes.get(plain.slice(0, length));
    const base = byAlias.get(plain.slice(length).toLowerCase());
    if (exponent !== undefined && base !== undefined && takesPrefix(base)) {
      return { kind: 'unit', unit: { base, exponent } };
    }
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
  return findRow(base)[1];
}

/** What a unit measures, in words for a message: `volts peak to peak`. */
export function measuresOf(base: BaseUnit): string {
  return findRow(base)[2];
}

/** False for per cent, ppm, degrees and decibels. */
export function takesPrefix(base: BaseUnit): boolean {
  return !bare.has(base);
}

function findRow(base: BaseUnit): UnitRow {
  const row = rows.find(([candidate]) => candidate === base);
  if (row === undefined) throw new Error(`The unit ${base} has no row.`);
  return row;
}

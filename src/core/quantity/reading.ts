import { asciiOf, type BaseUnit, findUnit, prefixOf, takesPrefix } from './unit.ts';

/** What a display showed, in a unit without prefix. */
export type Reading =
  | {
      readonly kind: 'number';
      readonly value: number;
      readonly base: BaseUnit;
      /** Power of ten of the last digit typed: −2 for 4.71 V, 2 for 4.7 kΩ. */
      readonly lastDigit: number;
    }
  /** `OL`: more than the instrument shows. */
  | { readonly kind: 'over-range'; readonly base: BaseUnit };

/**
 * Half of the last digit typed, in `unit`: what rounding to that digit hides at most.
 * 4.71 V hides 0.005 V; an over-range reading hides nothing that a number could say, 0.
 * @example halfLastDigit({ kind: 'number', value: 4.71, base: 'V', lastDigit: -2 }, 'mV') // 5
 */
export function halfLastDigit(reading: Reading, unit: string): number {
  return reading.kind === 'number' ? shiftDecimal(0.5, reading.lastDigit - exponentOf(unit)) : 0;
}

/** The value in `unit`, which measures the same; +∞ for over-range. */
export function valueIn(reading: Reading, unit: string): number {
  return reading.kind === 'number' ? shiftDecimal(reading.value, -exponentOf(unit)) : Number.POSITIVE_INFINITY;
}

/**
 * Converts a number from one unit to another of the same kind, only the prefix changing; undefined where the kinds differ.
 * @example convertUnit(20, 'nF', 'F') // 2e-8
 */
export function convertUnit(value: number, from: string, to: string): number | undefined {
  const source = findUnit(from);
  const target = findUnit(to);
  if (source === undefined || target === undefined || source.base !== target.base) return undefined;
  return shiftDecimal(value, source.exponent - target.exponent);
}

function exponentOf(unit: string): number {
  return findUnit(unit)?.exponent ?? 0;
}

/**
 * A reading as a link carries it: decimal point, ASCII unit, exactly the digits that were typed, so that the doubt of the last one
 * survives. Alphabet a-z A-Z 0-9 . -; at most 40 characters. `parseReading` reads it back to the same reading.
 * @example printLinkReading({ kind: 'number', value: 4700, base: 'Ω', lastDigit: 2 }) // '4.7kohm'
 * @example printLinkReading({ kind: 'over-range', base: 'Ω' }) // 'OL'
 */
export function printLinkReading(reading: Reading): string {
  if (reading.kind === 'over-range') return 'OL';
  const { figure, exponent } = splitPrefix(reading);
  const prefix = exponent === -6 ? 'u' : (prefixOf[exponent] ?? '');
  return `${figure}${prefix}${asciiOf(reading.base)}`;
}

/**
 * A reading as a page prints it: a real minus sign and a no-break space before the unit.
 * @example printReading({ kind: 'number', value: -4.71, base: 'V', lastDigit: -2 }) // '−4.71 V'
 */
export function printReading(reading: Reading): string {
  if (reading.kind === 'over-range') return 'OL';
  const { figure, exponent } = splitPrefix(reading);
  return `${figure.replaceAll('-', '−')}\u00a0${prefixOf[exponent] ?? ''}${reading.base}`;
}

/** Power of ten of the prefix that a reading is printed with; 0 for over-range. */
export function prefixIn(reading: Reading): number {
  return reading.kind === 'over-range' ? 0 : splitPrefix(reading).exponent;
}

/**
 * A computed value with a prefix and at most `digits` significant digits, trailing zeros dropped.
 * @example printQuantity(3.3e-7, 'F', 3) // '330 nF'
 */
export function printQuantity(value: number, base: BaseUnit, digits: number): string {
  if (value === 0 || !Number.isFinite(value)) return `${value === 0 ? 0 : value > 0 ? '∞' : '−∞'}\u00a0${base}`;
  const rounded = Number(value.toPrecision(digits));
  const exponent = prefixFor(base, powerOfTen(rounded), Number.NEGATIVE_INFINITY);
  const figure = String(shiftDecimal(rounded, -exponent)).replaceAll('-', '−');
  return `${figure}\u00a0${prefixOf[exponent] ?? ''}${base}`;
}

/** The figure with its typed digits, and the power of ten of the prefix that suits it. */
function splitPrefix(reading: Extract<Reading, { kind: 'number' }>): {
  readonly figure: string;
  readonly exponent: number;
} {
  const { value, base, lastDigit } = reading;
  const exponent = prefixFor(base, value === 0 ? lastDigit : powerOfTen(value), lastDigit);
  const decimals = exponent - lastDigit;
  const count = Math.round(shiftDecimal(Math.abs(value), -lastDigit));
  const sign = value < 0 ? '-' : '';
  if (decimals < 0) return { figure: `${sign}${count}e${-decimals}`, exponent };
  const digits = String(count).padStart(decimals + 1, '0');
  const cut = digits.length - decimals;
  return {
    figure: decimals === 0 ? `${sign}${digits}` : `${sign}${digits.slice(0, cut)}.${digits.slice(cut)}`,
    exponent,
  };
}

/** The prefix that leaves one to three digits before the point, and no digit that was not typed. */
function prefixFor(base: BaseUnit, power: number, lastDigit: number): number {
  if (!takesPrefix(base)) return 0;
  const { lowest, highest } = prefixRange(base);
  const fitting = Math.max(
    3 * Math.floor(power / 3),
    Number.isFinite(lastDigit) ? 3 * Math.ceil(lastDigit / 3) : lowest,
  );
  return Math.min(highest, Math.max(lowest, fitting));
}

/** Hertz take no small prefix and farads no large one: `parseReading` takes mHz and MF for slips. */
function prefixRange(base: BaseUnit): { readonly lowest: number; readonly highest: number } {
  return { lowest: base === 'Hz' ? 0 : -12, highest: base === 'F' ? 0 : 9 };
}

/** Floor of log10 of the size, exact at powers of ten. */
function powerOfTen(value: number): number {
  return Number(Math.abs(value).toExponential().split('e')[1]);
}

/**
 * A reading as a link carries it, written as people write it; a text that is none comes back as it is.
 * @example printLinkText('0.3ohm') // '0.3 Ω', with a no-break space
 * @example printLinkText('-12uV') // '−12 µV'
 */
export function printLinkText(text: string): string {
  const [, figure, letters = ''] = /^(-?\d+(?:\.\d+)?(?:e-?\d+)?)([A-Za-z]+)$/.exec(text) ?? [];
  const unit = findUnit(letters);
  if (figure === undefined || unit === undefined) return text;
  return `${figure.replaceAll('-', '−')}\u00a0${prefixOf[unit.exponent] ?? ''}${unit.base}`;
}

/**
 * `value` × 10^`places`, rounded once: the exponent of the shortest decimal text is moved, so 4.7 × 10³ is 4700 and not
 * 4700.000000000001. NaN and the infinities come back as they are; results beyond the range of a double become 0 or ±∞.
 * @example shiftDecimal(4.7, 3) // 4700
 * @example shiftDecimal(330, -9) // 3.3e-7
 */
export function shiftDecimal(value: number, places: number): number {
  if (!Number.isFinite(value)) return value;
  const [mantissa = '0', exponent = '0'] = String(value).split('e');
  return Number(`${mantissa}e${Number(exponent) + places}`);
}

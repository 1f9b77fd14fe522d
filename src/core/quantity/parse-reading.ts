import type { Reading } from './reading.ts';
import {
  asciiOf,
  type BaseUnit,
  findUnit,
  measuresOf,
  type MeasureUnit,
  prefixOf,
  readUnit,
  takesPrefix,
} from './unit.ts';

/** What a field expects: the quantity (`voltage-dc`, `resistance`) and the unit that a bare number is in. */
export interface ExpectedReading {
  readonly quantity: string;
  readonly unit: string;
}

export type ParsedReading =
  | { readonly kind: 'reading'; readonly reading: Reading }
  | { readonly kind: 'problem'; readonly problem: ReadingProblem };

const longestText = 40;
/** A double keeps fifteen significant digits of any decimal (IEEE 754-2019, table 3.2 and clause 5.12.2). */
const mostDigits = 15;
/** Beyond anything a bench instrument shows, in any unit without prefix. */
const largestExponent = 15;
const smallestExponent = -18;
/** More ohms below zero than the leads of a meter make, however they were taken off; ours, common practice. */
const mostLeadOhms = 2;

const decimalPattern = /^([+-]?)\s*(\d+[.,]?\d*|[.,]\d+)(?:e([+-]?\d{1,6}))?\s*(\D.*)?$/i;
/** The letter stands for the decimal sign: 4k7, 0R47, 3v3. IEC 60062:2016, clause 5, from memory. */
const letterPattern = /^([+-]?)\s*(\d+)(meg|[pnuμmkgrvaω])(\d+)\s*(\D.*)?$/i;
const overRangePattern =
  /^[+-]?(?:o\.?l|0l|ovld|ovl|over ?range|overload|over|open|∞|infinite|inf)\.?\s*([a-zω°%~]*)$/i;

/**
 * Reads what a person types into a reading field: `4.71`, `4,71 V`, `4k7`, `0R47`, `330n`, `0.33 uF`, `3v3`, `1e-3`, `-5`, `OL`,
 * `open`, `short`. A bare number is in the field's unit; a prefix alone counts from its unit without prefix; plain volts are taken
 * for rms and for peak to peak too, because that is what a display prints. A comma is a decimal sign. `open` is `OL` and `short` is
 * 0 to the nearest ohm, both for resistance and the diode range only.
 *
 * Never throws. Texts above 40 characters, more than 15 significant digits and powers of ten beyond −18 and +15 are refused.
 * @example parseReading('4k7', { quantity: 'resistance', unit: 'Ω' })
 * // { kind: 'reading', reading: { kind: 'number', value: 4700, base: 'Ω', lastDigit: 2 } }
 */
export function parseReading(text: string, expected: ExpectedReading): ParsedReading {
  if (text.length > longestText)
    return refuse(
      'too-long',
      `That is ${text.length} characters long; a reading has at most ${longestText}. Type the figure on the display.`,
    );
  const plain = text.normalize('NFKC').replace(/[−–—]/g, '-').replace(/\s+/g, ' ').trim();
  const own = findUnit(expected.unit) ?? { base: '%', exponent: 0 };
  if (plain === '') return refuse('empty', `Type the figure on the display, for example ${exampleOf(own)}.`);
  if (plain.length > longestText)
    return refuse('too-long', 'That is too long for a reading. Type the figure on the display.');
  const word = readWord(plain, own, expected);
  if (word !== undefined) return word;
  const parts = splitNumber(plain);
  if (parts === undefined) return explainNoNumber(plain, own);
  const unit = resolveUnit(parts, own);
  if ('code' in unit) return { kind: 'problem', problem: unit };
  return makeNumber(parts, unit, expected.quantity);
}

/** A number taken apart: sign, digits before and after the decimal sign, power of ten, and what follows. */
interface NumberParts {
  readonly sign: string;
  readonly whole: string;
  readonly fraction: string;
  readonly exponent: number;
  /** Letter that stood for the decimal sign. */
  readonly letter: string | undefined;
  readonly tail: string;
}

function splitNumber(plain: string): NumberParts | undefined {
  const coded = letterPattern.exec(plain);
  if (coded !== null) {
    const [, sign = '', whole = '', letter = '', fraction = '', tail = ''] = coded;
    if (/\d/.test(tail)) return undefined;
    return { sign, whole, fraction, exponent: 0, letter, tail };
  }
  const decimal = decimalPattern.exec(plain);
  if (decimal === null) return undefined;
  const [, sign = '', digits = '', exponent = '0', tail = ''] = decimal;
  if (/\d/.test(tail)) return undefined;
  const [whole = '', fraction = ''] = digits.split(/[.,]/);
  return { sign, whole, fraction, exponent: Number(exponent), letter: undefined, tail };
}

function resolveUnit({ letter, tail }: NumberParts, own: MeasureUnit): MeasureUnit | ReadingProblem {
  const said = [letter, tail].filter((part) => part !== undefined && part !== '');
  if (said.length === 0) return own;
  const read = said.map((part) => readUnit(part ?? ''));
  let exponent = 0;
  let prefixes = 0;
  let base: BaseUnit | undefined;
  for (const [index, part] of read.entries()) {
    if (part.kind === 'unknown') {
      return {
        code: 'unknown-unit',
        message: `“${said[index]}” is not a unit this field knows. Type ${namesOf(own)}, or the figure alone.`,
      };
    }
    const step = part.kind === 'prefix' ? part.exponent : part.unit.exponent;
    exponent += step;
    if (step !== 0) prefixes += 1;
    if (part.kind === 'unit') {
      if (base !== undefined && base !== part.unit.base) return wrongUnit(base, own);
      base = part.unit.base;
    }
  }
  if (base === undefined && !takesPrefix(own.base)) {
    return {
      code: 'wrong-unit',
      message: `This reading is in ${measuresOf(own.base)} and takes no prefix. Type the figure alone.`,
    };
  }
  if (prefixes > 1 || !Object.hasOwn(prefixOf, exponent))
    return { code: 'unknown-unit', message: 'Two prefixes stand in that reading. Type one.' };
  const unit: MeasureUnit = { base: base ?? own.base, exponent };
  const isPlainVolts = unit.base === 'V' && (own.base === 'V rms' || own.base === 'Vpp');
  if (unit.base !== own.base && !isPlainVolts) return wrongUnit(unit.base, own);
  const slip = findSlip(unit);
  return slip ?? { base: own.base, exponent };
}

/** Millihertz and megafarads are what a slip of the shift key makes of MHz and mF. */
function findSlip({ base, exponent }: MeasureUnit): ReadingProblem | undefined {
  if (base === 'Hz' && exponent < 0) {
    return {
      code: 'unlikely-prefix',
      message: 'Thousandths of a hertz are unlikely. Type MHz for millions, kHz for thousands.',
    };
  }
  if (base === 'F' && exponent > 0) {
    return {
      code: 'unlikely-prefix',
      message: 'Millions of farads are unlikely. Type mF for thousandths, uF for millionths.',
    };
  }
  return undefined;
}

function makeNumber(parts: NumberParts, unit: MeasureUnit, quantity: string): ParsedReading {
  const digits = `${parts.whole}${parts.fraction}`.replace(/^0+(?=\d)/, '');
  if (digits.length > mostDigits)
    return refuse('too-many-digits', `No bench instrument shows ${digits.length} digits. Type what the display shows.`);
  const lastDigit = parts.exponent + unit.exponent - parts.fraction.length;
  const highest = lastDigit + digits.length - 1;
  if (highest > largestExponent)
    return refuse('too-large', 'That is more than any bench instrument shows. Check the figure and its prefix.');
  if (lastDigit < smallestExponent)
    return refuse('too-small', 'That is finer than any bench instrument shows. Check the figure and its prefix.');
  const size = Number(`${digits}e${lastDigit}`);
  const value = parts.sign === '-' && size !== 0 ? -size : size;
  const negative = value < 0 ? explainNegative(value, quantity, unit) : undefined;
  if (negative !== undefined) return { kind: 'problem', problem: negative };
  return { kind: 'reading', reading: { kind: 'number', value, base: unit.base, lastDigit } };
}

function explainNegative(value: number, quantity: string, { base }: MeasureUnit): ReadingProblem | undefined {
  if (!isNeverNegative(quantity)) return undefined;
  return { code: 'negative', message: adviseNegative(value, quantity, base) };
}

function adviseNegative(value: number, quantity: string, base: BaseUnit): string {
  if (quantity === 'resistance' && value < -mostLeadOhms)
    return 'A resistance below zero means that something still drives the circuit. Power off, prove it discharged, then read again.';
  if (quantity === 'resistance')
    return 'Below zero, too much was taken off for the leads. Short the leads, note what they read, read again and take off just that.';
  if (quantity === 'capacitance')
    return 'Below zero, too much was taken off for the leads. Hold them open, note what they read, read again and take off just that.';
  return `A reading in ${measuresOf(base)} cannot be below zero here. Type the figure without its sign.`;
}

function readWord(plain: string, own: MeasureUnit, expected: ExpectedReading): ParsedReading | undefined {
  const { quantity } = expected;
  const takesOpen = quantity === 'resistance' || quantity === 'diode-test';
  if (/^(short|shorted|short circuit)$/i.test(plain)) {
    if (!takesOpen)
      return refuse('not-a-number', `Type a figure in ${measuresOf(own.base)}; “short” is for resistance.`);
    const lastDigit = quantity === 'resistance' ? 0 : -2;
    return { kind: 'reading', reading: { kind: 'number', value: 0, base: own.base, lastDigit } };
  }
  const over = overRangePattern.exec(/^open( circuit)?$/i.test(plain) ? 'open' : plain);
  if (over === null) return undefined;
  const tail = over[1] ?? '';
  const unit = tail === '' ? undefined : readUnit(tail);
  if (unit?.kind === 'unknown') return undefined;
  if (!takesOpen) {
    return refuse(
      'over-range',
      /^open/i.test(plain)
        ? `Type a figure in ${measuresOf(own.base)}; “open” is for resistance.`
        : 'Over range means more than this range shows. Take the leads off, turn to a higher range, read again.',
    );
  }
  if (unit?.kind === 'unit' && unit.unit.base !== own.base)
    return { kind: 'problem', problem: wrongUnit(unit.unit.base, own) };
  return { kind: 'reading', reading: { kind: 'over-range', base: own.base } };
}

function explainNoNumber(plain: string, own: MeasureUnit): ParsedReading {
  if (/^[+-]?[\d.,\s']*\d[\d.,\s']*[^\d]*$/.test(plain)) {
    return refuse(
      'two-decimal-signs',
      'More than one decimal sign, or a space among the digits. Type it with one point or comma, without thousands signs.',
    );
  }
  return refuse(
    'not-a-number',
    `That is not a figure with its unit. Type what the display shows, for example ${exampleOf(own)}.`,
  );
}

function wrongUnit(said: BaseUnit, own: MeasureUnit): ReadingProblem {
  const typed = said === 'F' && own.base === '°C' ? '°F' : said;
  return {
    code: 'wrong-unit',
    message: `That is in ${measuresOf(typed)}; this reading is in ${measuresOf(own.base)}. ${adviseUnit(typed, own.base)}`,
  };
}

function adviseUnit(typed: BaseUnit, own: BaseUnit): string {
  if (typed === '°F' && own === '°C') return 'Take 32 off and divide by 1.8.';
  if (typed === 'Vpp' && own === 'V rms')
    return 'Set the meter to ac volts; peak to peak divided by 2.83 holds for a sine alone.';
  if (typed === 'V rms' && own === 'Vpp')
    return 'Read peak to peak on the scope; rms times 2.83 holds for a sine alone.';
  if (typed === 'V rms' && own === 'V') return 'Turn the meter to dc volts and read again.';
  if (typed === 'Vpp' && own === 'V') return 'Read the level itself, not the swing.';
  return 'Look at the range switch, then read again.';
}

function exampleOf({ base, exponent }: MeasureUnit): string {
  return takesPrefix(base) ? `4.7 ${prefixOf[exponent] ?? ''}${base}` : `47 ${base}`;
}

function namesOf({ base, exponent }: MeasureUnit): string {
  const plain = `${exponent === -6 ? 'u' : (prefixOf[exponent] ?? '')}${asciiOf(base)}`;
  const printed = `${prefixOf[exponent] ?? ''}${base}`;
  return plain === printed ? printed : `${printed} or ${plain}`;
}

function refuse(code: ReadingProblemCode, message: string): ParsedReading {
  return { kind: 'problem', problem: { code, message } };
}

/** Why a text is no reading, with the sentence that stands beside the field. What was typed stays there. */
export interface ReadingProblem {
  readonly code: ReadingProblemCode;
  readonly message: string;
}

export type ReadingProblemCode =
  | 'empty'
  | 'too-long'
  | 'not-a-number'
  | 'two-decimal-signs'
  | 'too-many-digits'
  | 'too-large'
  | 'too-small'
  | 'unknown-unit'
  | 'unlikely-prefix'
  | 'wrong-unit'
  | 'negative'
  | 'over-range'
  | 'not-for-this-instrument';

/** Kinds of quantity of which nothing is the least there can be. Dc volts and amperes have a direction, °C and ratios may lie below zero. */
const neverNegative: ReadonlySet<string> = new Set([
  'resistance',
  'capacitance',
  'frequency',
  'time',
  'voltage-ac',
  'voltage-pp',
]);

/** Whether a quantity (`resistance`, `voltage-pp`) cannot be below zero, so that 0 is the other end of a window with an upper limit alone. */
export function isNeverNegative(quantity: string): boolean {
  return neverNegative.has(quantity);
}

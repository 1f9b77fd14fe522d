import { printQuantity, shiftDecimal } from '../quantity/reading.ts';

/** One thing that a marking can mean. */
export interface Meaning {
  readonly part: 'resistor' | 'capacitor' | 'date code' | 'part number';
  /** Ohms or farads; undefined for a date and for a number. */
  readonly value: number | undefined;
  readonly says: string;
  readonly basis: string;
}

/** What a marking can mean, the likeliest first, or why it is none. */
export interface Decoded {
  readonly meanings: readonly Meaning[];
  readonly problem: string | undefined;
}

const basisOf = {
  bands: 'IEC 60062, colours as published tables of it give them',
  letters: 'IEC 60062, letter and digit code',
  digits: 'digits and number of zeros, as makers’ sheets print it',
  practice: 'common practice',
} as const;

/** Colour, digit, power of ten, tolerance in per cent, ppm a kelvin. Orange, yellow and grey had no tolerance in these years. */
export const bandColours: readonly (readonly [
  name: string,
  digit: number | undefined,
  power: number,
  percent?: number | undefined,
  ppm?: number,
])[] = [
  ['black', 0, 0, undefined, 250],
  ['brown', 1, 1, 1, 100],
  ['red', 2, 2, 2, 50],
  ['orange', 3, 3, undefined, 15],
  ['yellow', 4, 4, undefined, 25],
  ['green', 5, 5, 0.5, 20],
  ['blue', 6, 6, 0.25, 10],
  ['violet', 7, 7, 0.1, 5],
  ['grey', 8, 8, undefined, 1],
  ['white', 9, 9],
  ['gold', undefined, -1, 5],
  ['silver', undefined, -2, 10],
];

/** What each of four, five or six bands is. */
export function nameBands(count: number): readonly string[] {
  const digits = count < 5 ? ['First digit', 'Second digit'] : ['First digit', 'Second digit', 'Third digit'];
  return [...digits, 'Multiplier', 'Tolerance', 'Temperature'].slice(0, count);
}

/** Reads the colour bands of a resistor from both ends. */
export function readBands(bands: readonly string[]): Decoded {
  const forward = readOneWay(bands);
  const backward = readOneWay(bands.toReversed());
  if (forward === undefined && backward === undefined)
    return none('Neither end gives a value. Look again in daylight: brown, red and orange fade into each other.');
  const meanings = [
    ...(forward === undefined ? [] : [forward.meaning]),
    ...(backward === undefined || (forward?.isUsual === true && !backward.isUsual)
      ? []
      : [{ ...backward.meaning, says: `From the other end: ${backward.meaning.says}` }]),
  ];
  return { meanings, problem: undefined };
}

function readOneWay(bands: readonly string[]): { readonly meaning: Meaning; readonly isUsual: boolean } | undefined {
  const found = bands.map((band) => bandColours.find(([name]) => name === band));
  const count = bands.length < 5 ? 2 : 3;
  const digits = found.slice(0, count).map((colour) => colour?.[1]);
  const [power, percent, ppm] = [found[count]?.[2], found[count + 1]?.[3], found[count + 2]?.[4]];
  const isSix = bands.length === 6;
  if (bands.length < 4 || bands.length > 6 || power === undefined || percent === undefined) return undefined;
  if (digits.includes(undefined) || digits[0] === 0 || (isSix && ppm === undefined)) return undefined;
  const figure = Number(digits.join(''));
  const value = shiftDecimal(figure, power);
  const isLikely = isUsual(figure) && value <= mostOhms;
  const meaning = tell('resistor', value, percent, basisOf.bands, isLikely);
  const drift = isSix ? ` It drifts by ${ppm} ppm a degree at most.` : '';
  return { meaning: { ...meaning, says: meaning.says + drift }, isUsual: isLikely };
}

/** Resistors above this are hardly ever marked so. */
const mostOhms = 22e6;

/** IEC 60063: the series E24, and E192, which holds E96 and E48; 9.20 is its one value off the formula. */
function isUsual(figure: number): boolean {
  const digits = String(figure).padEnd(3, '0').slice(0, 3);
  const index = Math.round(192 * Math.log10(Number(digits) / 100));
  const e192 = index === 185 ? 920 : Math.round(100 * 10 ** (index / 192));
  const e24 = '100 110 120 130 150 160 180 200 220 240 270 300 330 360 390 430 470 510 560 620 680 750 820 910';
  return e192 === Number(digits) || e24.split(' ').includes(digits);
}

const percents: Readonly<Record<string, number>> = { B: 0.1, C: 0.25, D: 0.5, F: 1, G: 2, J: 5, K: 10, M: 20 };
/** Below 10 pF these letters are picofarads. */
const picofarads: Readonly<Record<string, number>> = { B: 0.1, C: 0.25, D: 0.5, F: 1, G: 2 };

/** A value with the tolerance that a letter or a percentage gives. */
function tell(
  part: 'resistor' | 'capacitor',
  value: number,
  tolerance: string | number | undefined,
  basis: string,
  isKnown = true,
): Meaning {
  const unit = part === 'resistor' ? 'Ω' : 'F';
  const print = (one: number): string =>
    unit === 'Ω' && one < 1 ? `${Number(one.toPrecision(4))}\u00a0Ω` : printQuantity(one, unit, 4);
  const letter = typeof tolerance === 'string' ? tolerance : '';
  const absolute = part === 'capacitor' && value < 9.99e-12 ? picofarads[letter] : undefined;
  const percent = typeof tolerance === 'number' ? tolerance : percents[letter];
  const share = absolute === undefined ? (percent ?? 0) / 100 : (absolute * 1e-12) / value;
  const [down, up] = letter === 'Z' ? [0.2, 0.8] : [share, share];
  const named =
    letter === 'Z' ? ', −20 to +80\u00a0%' : absolute === undefined ? ` ±${percent}\u00a0%` : ` ±${absolute}\u00a0pF`;
  const range = up === 0 ? '' : `${named}: ${print(value * (1 - down))} to ${print(value * (1 + up))}`;
  const doubt = isKnown ? '' : ' That is not a usual value, so read it again or measure it.';
  const name = part === 'resistor' ? 'Resistor' : 'Capacitor';
  return { part, value, says: `${name}, ${print(value)}${range}.${doubt}`, basis };
}

const none = (problem: string): Decoded => ({ meanings: [], problem });

/** Reads what is printed on a part: `4K7`, `104K`, `R47`, `4n7`, `8432`. Any text goes in. */
export function readMarking(text: string): Decoded {
  const typed = text.normalize('NFKC').replaceAll(/\s/gu, '');
  const marking = typed.replace(/(Ω|ohms?)$/iu, '');
  if (marking === '') return none('Type what is printed on the part, for example 4K7, 104K or 8432.');
  if (marking.length > 12) return none('That is longer than any of these markings. Type one group of signs.');
  const [letters, digits] = [readLetters(marking), readDigits(marking)];
  // `104K` is a capacitor’s code first, `100K` a resistor first.
  const isCode = /^\d\d[1-9]/u.test(marking);
  const both = isCode ? [...digits, ...letters] : [...letters, ...digits];
  const all = [...both, ...readVolts(marking), ...readDecimals(marking)];
  const meanings = marking === typed ? all : all.filter(({ part }) => part === 'resistor');
  if (meanings.length > 0) return { meanings, problem: undefined };
  return none(`“${marking}” is none of these markings. Letters and digits mixed are mostly a maker’s type number.`);
}

const powers: Readonly<Record<string, number>> = { R: 0, K: 3, M: 6, G: 9, P: -12, N: -9, U: -6 };

/** The letter stands where the point would: `4K7`, `R47`, `2M2J`, `4n7`. */
function readLetters(marking: string): readonly Meaning[] {
  const [, whole = '', letter = '', rest = '', after = ''] =
    /^(\d{0,3})([RKMGPNUμ])(\d{0,3})([BCDFGJKMZ]?)$/iu.exec(marking) ?? [];
  if (whole + rest === '') return [];
  const sign = letter === 'μ' ? 'U' : letter.toUpperCase();
  const tolerance = after.toUpperCase();
  const value = shiftDecimal(Number(`${whole}.${rest}`), powers[sign] ?? 0);
  const basis = basisOf.letters;
  if ('PNU'.includes(sign)) {
    // The F of `100nF` is the unit.
    const isUnit = rest === '' && tolerance === 'F';
    return [tell('capacitor', value, isUnit ? undefined : tolerance, basis)];
  }
  const small = tell('capacitor', shiftDecimal(value, -12), tolerance, basisOf.digits);
  const capacitor = { ...small, says: `${small.says} On an electrolytic it counts microfarads.` };
  if (tolerance === 'Z') return sign === 'R' ? [capacitor] : [];
  const resistor = tell('resistor', value, tolerance, basis);
  if (sign === 'R') return [resistor, capacitor];
  return letter === 'm' ? [resistor, tell('capacitor', shiftDecimal(value, -9), tolerance, basis)] : [resistor];
}

/** `104`, `104K`, `47J`, `1002`, `8432`. */
function readDigits(marking: string): readonly Meaning[] {
  const [, digits = '', after = ''] = /^(\d{1,4})([BCDFGJKMZ]?)$/iu.exec(marking) ?? [];
  const letter = after.toUpperCase();
  if (digits.length === 4) return readFour(digits, letter);
  if (digits === '' || (digits.startsWith('0') && digits !== '0' && digits !== '000')) return [];
  if (Number(digits) === 0) return [{ ...tell('resistor', 0, undefined, basisOf.digits), says: 'Link of 0 Ω.' }];
  if (digits.length < 3) {
    const plain = tell('capacitor', shiftDecimal(Number(digits), -12), letter, basisOf.practice);
    if (letter !== '') return [plain];
    const large = tell('capacitor', shiftDecimal(Number(digits), -6), letter, basisOf.practice);
    return [
      { ...plain, says: `${plain.says} So small ceramic ones are marked.` },
      { ...large, says: `${large.says} So electrolytic ones are marked.` },
    ];
  }
  const [figure, zeros] = [Number(digits.slice(0, 2)), Number(digits.slice(2))];
  const power = zeros === 8 ? -2 : zeros === 9 ? -1 : zeros;
  const ohms = shiftDecimal(figure, zeros);
  const code = tell('capacitor', shiftDecimal(figure, power - 12), letter, basisOf.digits, isUsual(figure));
  if (ohms > mostOhms || letter === 'Z') return [code];
  const chip = tell('resistor', ohms, letter, basisOf.digits, isUsual(figure));
  const plain = tell('capacitor', shiftDecimal(Number(digits), -12), letter, basisOf.practice);
  return [
    code,
    { ...chip, says: `${chip.says} So chips and rows of resistors are marked.` },
    ...(zeros === 0 ? [{ ...plain, says: `${plain.says} Some makers print plain picofarads, so measure.` }] : []),
  ];
}

/** Four digits: year and week, three digits and zeros, or the number of a part. */
function readFour(digits: string, letter: string): readonly Meaning[] {
  const [year, week] = [Number(digits.slice(0, 2)), Number(digits.slice(2))];
  const [figure, zeros] = [Number(digits.slice(0, 3)), Number(digits.slice(3))];
  const isResistor = figure >= 100 && isUsual(figure) && shiftDecimal(figure, zeros) <= mostOhms;
  const resistor = isResistor ? [tell('resistor', shiftDecimal(figure, zeros), letter, basisOf.digits)] : [];
  if (letter !== '') return resistor;
  const isDate = year >= 70 && week >= 1 && week <= 53;
  const date = `Date code, week ${week} of 19${digits.slice(0, 2)}.`;
  const why = year < 70 ? 'the years of these parts are 70 to 99' : `there is no week ${digits.slice(2)}`;
  const number = isDate
    ? 'Number of a part, as 7404 and 8251 are: then another group of four digits is the date. The maker’s letters mostly stand at the number, so compare the two before you order.'
    : `Number of a part, as 7400 and 8255 are. It is not a date, since ${why}.`;
  const plain = { value: undefined, basis: basisOf.practice };
  return [
    ...(isDate ? [{ part: 'date code', says: date, ...plain } as const] : []),
    { part: 'part number', says: number, ...plain },
    ...resistor,
  ];
}

/** `1H104K`: the maker's two signs for the voltage, which no standard that we could read lists, before the code. */
function readVolts(marking: string): readonly Meaning[] {
  const code = /^[0-3][ACDEGHJVW](\d{3}[BCDFGJKMZ]?)$/iu.exec(marking)?.[1] ?? '';
  return readDigits(code)
    .slice(0, 1)
    .map((meaning) => ({
      ...meaning,
      says: `${meaning.says} The first two signs are the maker’s code for its volts: look in the maker’s sheet.`,
    }));
}

/** `0.047`, `.1K`: microfarads. */
function readDecimals(marking: string): readonly Meaning[] {
  const [, figure = '', letter = ''] = /^(\d{0,4}[.,]\d{1,4})([BCDFGJKMZ]?)$/iu.exec(marking) ?? [];
  const [value, sign] = [Number(figure.replace(',', '.')), letter.toUpperCase()];
  if (!(value > 0)) return [];
  const capacitor = tell('capacitor', shiftDecimal(value, -6), sign, basisOf.practice);
  const power = sign === 'K' || sign === 'M' ? powers[sign] : undefined;
  return power === undefined
    ? [capacitor]
    : [tell('resistor', shiftDecimal(value, power), undefined, basisOf.practice), capacitor];
}

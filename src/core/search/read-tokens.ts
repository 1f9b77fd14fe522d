import { stemWord } from './stem-word.ts';
import type { AmountQuantity } from '../model/thesaurus.ts';

/** A word or a number of a text, and where it stands there. */
export interface Token {
  readonly start: number;
  readonly end: number;
  /** The word without its ending; for an amount, its digits. */
  readonly stem: string;
  readonly amount: Amount | undefined;
  /** A comma, full stop or the like stands before it. */
  readonly isAfterStop: boolean;
}

/** A number with what it measures: volts, ohms, hertz, seconds, revolutions a minute, amperes, millivolts. */
export interface Amount {
  readonly quantity: AmountQuantity;
  readonly value: number;
  /** As typed it has decimals, so it was read off something. */
  readonly isExact: boolean;
}

const units: readonly (readonly [pattern: RegExp, quantity: AmountQuantity, factor: number])[] = [
  [/^m(?:illi)?v(?:olts?)?(?:pp|p-p|ac|dc|rms)?$/, 'amplitude', 1],
  [/^v(?:pp|p-p)$/, 'amplitude', 1000],
  [/^v(?:olts?|dc|ac|s)?$/, 'voltage', 1],
  [/^(?:ohms?|Ω|ω|r)$/, 'resistance', 1],
  [/^k(?:ohms?|Ω|ω)$/, 'resistance', 1000],
  [/^(?:hz|hertz|cps)$/, 'frequency', 1],
  [/^k(?:hz|ilohertz)$/, 'frequency', 1000],
  [/^m(?:hz|egahertz|c)$/, 'frequency', 1e6],
  [/^rpm$/, 'speed', 1],
  [/^m(?:illi)?a(?:mps?)?$/, 'current', 0.001],
  [/^a(?:mps?|mperes?)?$/, 'current', 1],
  [/^min(?:ute)?s?$/, 'time', 60],
  [/^h(?:ou)?rs?$/, 'time', 3600],
  [/^sec(?:ond)?s?$/, 'time', 1],
];
const unitText =
  'millivolts?|mvpp|mvrms|mvac|mvdc|mv|vpp|volts?|vdc|vac|v|k?ohms?|k?[Ωω]|hertz|[km]?hz|rpm|milliamps?|ma|amperes?|amps?|a|minutes?|mins?|hours?|hrs?|seconds?|secs?';
const tokenPattern = new RegExp(
  `(?<![\\p{L}\\p{N}.])([+\\-−–]?)(\\d{1,9}(?:[.,]\\d{1,6})?)(?:\\s?(${unitText})(?![\\p{L}\\p{N}])|(ish)?(?![\\p{L}\\p{N}]))|[\\p{L}\\p{N}]+(?:['’][\\p{L}]+)*`,
  'giu',
);
const longest = 1000;
const mostTokens = 60;

const numberWords: Readonly<Record<string, number>> = byStem({
  zero: 0,
  half: 0.5,
  one: 1,
  two: 2,
  three: 3,
  four: 4,
  five: 5,
  six: 6,
  seven: 7,
  eight: 8,
  nine: 9,
  ten: 10,
  eleven: 11,
  twelve: 12,
  thirteen: 13,
  fourteen: 14,
  fifteen: 15,
  sixteen: 16,
  twenty: 20,
  thirty: 30,
  forty: 40,
  fifty: 50,
  sixty: 60,
  hundred: 100,
});

function byStem(words: Readonly<Record<string, number>>): Readonly<Record<string, number>> {
  return Object.fromEntries(Object.entries(words).map(([word, value]) => [stemWord(word), value]));
}

/** The words and amounts of a text, in order; at most 1,000 characters and 60 tokens are read. Never throws. */
export function readTokens(text: string): readonly Token[] {
  const tokens: Token[] = [];
  // 4v7 is 4.7 V in the trade, as 4k7 is 4.7 kilohms.
  const short = text
    .slice(0, longest)
    .toLowerCase()
    .replaceAll(/(?<![\p{L}\p{N}])(\d{1,2})v(\d)(?![\p{L}\p{N}])/gu, '$1.$2');
  let previousEnd = 0;
  for (const match of short.matchAll(tokenPattern)) {
    if (tokens.length >= mostTokens) break;
    const start = match.index;
    const end = start + match[0].length;
    const isAfterStop = tokens.length > 0 && /[,;:!?()]|\.(?:\s|$)/.test(short.slice(previousEnd, start));
    previousEnd = end;
    const place = { start, end, isAfterStop };
    if (match[2] === undefined) {
      tokens.push({ ...place, stem: stemWord(match[0].replaceAll(/['’]/g, '')), amount: undefined });
      continue;
    }
    const value = Number(`${/[-−–]/.test(match[1] ?? '') ? '-' : ''}${match[2].replace(',', '.')}`);
    const isExact = /[.,]/.test(match[2]);
    const amount = findAmount(value, match[3], isExact, match[1] !== '', match[4] !== undefined, short.slice(end));
    tokens.push({ ...place, stem: match[2], amount: amount === undefined ? undefined : { ...amount, isExact } });
  }
  return joinSpokenAmounts(tokens);
}

function findAmount(
  value: number,
  unit: string | undefined,
  isExact: boolean,
  isSigned: boolean,
  isAbout: boolean,
  rest: string,
): Omit<Amount, 'isExact'> | undefined {
  if (unit !== undefined) {
    const found = units.find(([pattern]) => pattern.test(unit));
    return found === undefined ? undefined : { quantity: found[1], value: value * found[2] };
  }
  // A bare decimal, or a bare number with a sign, is a voltage here, but for the sizes of disks.
  if (/^\s*(?:["”]|inch|in\b|drive|disk|disc|flopp)/.test(rest)) return undefined;
  const size = Math.abs(value);
  const isVoltage = size <= 30 && (isExact || isAbout || (isSigned && size >= 3));
  return isVoltage ? { quantity: 'voltage', value } : undefined;
}

/** `four and a half volts`, `half a volt`, `minus twelve volts`: words in a row that make one amount. */
function joinSpokenAmounts(tokens: readonly Token[]): readonly Token[] {
  const joined: Token[] = [];
  for (let index = 0; index < tokens.length; index += 1) {
    const spoken = readSpokenAmount(tokens, index);
    const first = tokens[index];
    if (first === undefined) break;
    if (spoken === undefined) {
      joined.push(first);
      continue;
    }
    const last = tokens[index + spoken.length - 1] ?? first;
    joined.push({ ...first, end: last.end, stem: String(Math.abs(spoken.amount.value)), amount: spoken.amount });
    index += spoken.length - 1;
  }
  return joined;
}

function readSpokenAmount(tokens: readonly Token[], from: number): { amount: Amount; length: number } | undefined {
  let at = from;
  const stemAt = (index: number): string => tokens[index]?.stem ?? '';
  const isNegative = /^(?:minus|negativ|neg)$/.test(stemAt(at));
  if (isNegative) at += 1;
  if (!Object.hasOwn(numberWords, stemAt(at))) return undefined;
  let value = numberWords[stemAt(at)] ?? 0;
  const isHalf = stemAt(at) === 'half';
  at += 1;
  if (isHalf && /^an?$/.test(stemAt(at))) at += 1;
  if (stemAt(at) === 'hundred') {
    value *= 100;
    at += 1;
  }
  let hasPart = isHalf;
  if (stemAt(at) === 'and' && stemAt(at + 1) === 'a' && stemAt(at + 2) === 'half') {
    value += 0.5;
    hasPart = true;
    at += 3;
  } else if (stemAt(at) === 'point' && Object.hasOwn(numberWords, stemAt(at + 1))) {
    value += (numberWords[stemAt(at + 1)] ?? 0) / 10;
    hasPart = true;
    at += 2;
  }
  const unit = /^(?:volt|v|ohm|hertz|minut|hour|mv)$/.test(stemAt(at)) ? stemAt(at) : undefined;
  if (unit === undefined && !(hasPart && !isHalf)) return undefined;
  const name = unit === 'minut' ? 'minute' : (unit ?? 'v');
  const found = units.find(([pattern]) => pattern.test(name));
  if (found === undefined) return undefined;
  const signed = (isNegative ? -value : value) * found[2];
  return {
    amount: { quantity: found[1], value: signed, isExact: hasPart },
    length: at - from + (unit === undefined ? 0 : 1),
  };
}

import { isRecord } from '../model/read-record.ts';
import type { ProblemMessage } from './problem-message.ts';

/** Reads fields of unknown data and collects a message for every one that does not fit. Never throws. */
export interface FieldReader {
  readonly messages: ProblemMessage[];
  readonly fail: (where: string, text: string) => void;
  readonly note: (where: string, text: string) => void;
  /** The object at `where`, or undefined with a message. */
  readonly readObject: (value: unknown, where: string) => Readonly<Record<string, unknown>> | undefined;
  /** The list at `where`; missing counts as empty unless it is required. */
  readonly readList: (value: unknown, where: string, atLeast: number, atMost: number) => readonly unknown[];
  /** A finite number in [lowest, highest]; a missing one is `fallback`, or a message where that is undefined. */
  readonly readNumber: (value: unknown, where: string, bounds: NumberBounds) => number;
  /** A text that is not empty. */
  readonly readText: (value: unknown, where: string) => string;
  /** Notes keys that nothing reads: usually a slip of the pen. */
  readonly noteOtherKeys: (value: Readonly<Record<string, unknown>>, where: string, known: readonly string[]) => void;
}

export interface NumberBounds {
  readonly lowest: number;
  readonly highest: number;
  readonly fallback?: number;
}

/** Makes a reader with an empty list of messages. */
export function createFieldReader(): FieldReader {
  const messages: ProblemMessage[] = [];
  const fail = (where: string, text: string): void => void messages.push({ kind: 'error', where, text });
  const note = (where: string, text: string): void => void messages.push({ kind: 'note', where, text });
  return {
    messages,
    fail,
    note,
    readObject(value, where) {
      if (isRecord(value)) return value;
      fail(where, `Unexpected ${describe(value)}, expected an object in braces`);
      return undefined;
    },
    readList(value, where, atLeast, atMost) {
      if (value === undefined && atLeast === 0) return [];
      if (!Array.isArray(value)) {
        fail(where, `Unexpected ${describe(value)}, expected a list in square brackets`);
        return [];
      }
      const list: readonly unknown[] = value;
      if (list.length < atLeast) fail(where, `Unexpected list of ${list.length}, expected at least ${atLeast}`);
      if (list.length <= atMost) return list;
      fail(
        where,
        `Unexpected list of ${list.length}, expected at most ${atMost}; leave out or join what matters least`,
      );
      return list.slice(0, atMost);
    },
    readNumber(value, where, bounds) {
      if (value === undefined && bounds.fallback !== undefined) return bounds.fallback;
      if (typeof value === 'number' && Number.isFinite(value) && value >= bounds.lowest && value <= bounds.highest)
        return value;
      fail(where, `Unexpected ${describe(value)}, expected ${describeBounds(bounds)}`);
      return bounds.fallback ?? bounds.lowest;
    },
    readText(value, where) {
      if (typeof value === 'string' && value !== '') return value;
      fail(where, `Unexpected ${describe(value)}, expected a text in quotes that is not empty`);
      return '';
    },
    noteOtherKeys(value, where, known) {
      for (const key of Object.keys(value)) {
        if (known.includes(key)) continue;
        note(
          where === '' ? shorten(key) : `${where}.${shorten(key)}`,
          `Unexpected key, nothing reads it; expected ${listNames(known)}`,
        );
      }
    },
  };
}

/**
 * Says what a value is, short enough for a message.
 * @example describe([1, 2]) // 'a list of 2'
 */
export function describe(value: unknown): string {
  if (value === undefined) return 'nothing';
  if (value === null) return '`null`';
  if (Array.isArray(value)) return `a list of ${value.length}`;
  if (typeof value === 'object') return 'an object';
  if (typeof value === 'string') return value === '' ? 'an empty text' : `text \`${shorten(value)}\``;
  if (value === Number.POSITIVE_INFINITY || value === Number.NEGATIVE_INFINITY) return 'a number too large to hold';
  return `\`${shorten(String(value))}\``;
}

/** Lists names for a message, each in backticks, at most twelve. */
export function listNames(names: readonly string[]): string {
  if (names.length === 0) return 'none';
  const shown = names.slice(0, 12).map((name) => `\`${shorten(name)}\``);
  return shown.join(', ') + (names.length > shown.length ? ` and ${names.length - shown.length} more` : '');
}

function describeBounds({ lowest, highest }: NumberBounds): string {
  return Number.isFinite(highest) && highest < 1e6
    ? `a number from ${lowest} to ${highest}`
    : `a number of at least ${lowest}`;
}

function shorten(text: string): string {
  const flat = text.replaceAll(/[\s`]+/gu, ' ');
  return flat.length > 40 ? `${flat.slice(0, 39)}…` : flat;
}

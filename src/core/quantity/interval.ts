/** All values from `low` to `high`, both included, in one unit. `low` never lies above `high`. */
export interface Interval {
  readonly low: number;
  readonly high: number;
}

/**
 * A value with a tolerance in per cent of it: the ends of what it may be.
 * @example withTolerance(4700, 5) // { low: 4465, high: 4935 }
 */
export function withTolerance(value: number, percent: number): Interval {
  return between(value * (1 - percent / 100), value * (1 + percent / 100));
}

/** The interval between two values in any order. */
export function between(one: number, other: number): Interval {
  return { low: Math.min(one, other), high: Math.max(one, other) };
}

/**
 * Interval arithmetic (Moore, Kearfott, Cloud, Introduction to Interval Analysis, 2009, section 2.3, from memory): the result holds
 * every sum of one value from each. Write a formula so that each quantity stands in it once, else the result is wider than the truth.
 */
export function addIntervals(a: Interval, b: Interval): Interval {
  return { low: a.low + b.low, high: a.high + b.high };
}

/** Every difference of a value from `a` and one from `b`. */
export function subtractIntervals(a: Interval, b: Interval): Interval {
  return { low: a.low - b.high, high: a.high - b.low };
}

/** Every product of a value from each. */
export function multiplyIntervals(a: Interval, b: Interval): Interval {
  const products = [a.low * b.low, a.low * b.high, a.high * b.low, a.high * b.high];
  return { low: Math.min(...products), high: Math.max(...products) };
}

/** Every quotient; undefined where the divisor may be zero. */
export function divideIntervals(a: Interval, b: Interval): Interval | undefined {
  if (b.low <= 0 && b.high >= 0) return undefined;
  return multiplyIntervals(a, { low: 1 / b.high, high: 1 / b.low });
}

/** True where the value lies in the interval, ends included. */
export function contains(interval: Interval, value: number): boolean {
  return value >= interval.low && value <= interval.high;
}

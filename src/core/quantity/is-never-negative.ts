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

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

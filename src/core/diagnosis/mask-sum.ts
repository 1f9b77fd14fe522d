/**
 * Makes a function that sums the values whose bits are set in a mask of up to 30 bits, from two tables of half the bits each.
 * Cost: 2^(n/2) to make, two look-ups to use.
 * @example createMaskSum(Float64Array.of(1, 2, 4))(0b101) // 5
 */
export function createMaskSum(values: Float64Array): (mask: number) => number {
  const half = values.length >> 1;
  const low = tabulate(values.subarray(0, half));
  const high = tabulate(values.subarray(half));
  const lowMask = (1 << half) - 1;
  return (mask) => (low[mask & lowMask] ?? 0) + (high[mask >>> half] ?? 0);
}

function tabulate(values: Float64Array): Float64Array {
  const table = new Float64Array(1 << values.length);
  for (let mask = 1; mask < table.length; mask++) {
    const lowest = 31 - Math.clz32(mask & -mask);
    table[mask] = (table[mask & (mask - 1)] ?? 0) + (values[lowest] ?? 0);
  }
  return table;
}

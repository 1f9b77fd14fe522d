import type { Band, Limits, Target } from './target.ts';

/**
 * A target with limits of a region or a unit in place of its own; a limit that is not given keeps the target's. The edge of `none` and
 * named bands stay. Where the new limits are out of order with what stays, the target comes back unchanged.
 * @example applyLimits(rail, { low: 4.9, nominal: undefined, high: 5.1 })
 */
export function applyLimits(target: Target, { low, nominal, high }: Limits): Target {
  const names = target.bands.map(({ name }) => name);
  if (names.some((name) => !['none', 'low', 'in', 'high'].includes(name))) return target;
  const edgeOf = (name: string, side: 'from' | 'to'): number | undefined =>
    target.bands.find((band) => band.name === name)?.[side];
  const none = edgeOf('none', 'to');
  const newLow = low ?? edgeOf('low', 'to');
  const newHigh = high ?? edgeOf('high', 'from');
  const rising = [none, newLow, newHigh].filter((edge) => edge !== undefined);
  if (rising.some((edge, index) => index > 0 && edge <= (rising[index - 1] ?? edge))) return target;
  const bands: Band[] = [];
  if (none !== undefined) bands.push({ name: 'none', from: undefined, to: none });
  if (newLow !== undefined) bands.push({ name: 'low', from: none, to: newLow });
  bands.push({ name: 'in', from: newLow ?? none, to: newHigh });
  if (newHigh !== undefined) bands.push({ name: 'high', from: newHigh, to: undefined });
  return { ...target, nominal: nominal ?? target.nominal, bands };
}

import { applyLimits } from '../model/apply-limits.ts';
import type { Limits, Target } from '../model/target.ts';
import { printBand, printHealthy, printLimit } from '../model/target-text.ts';

/** What stands in a sheet in place of a target's general numbers, as texts ready to be put in place. */
export interface UnitTarget {
  /** The numbers themselves, for `applyLimits`: a reading is judged by them. A limit that is not given keeps the target's. */
  readonly limits: Limits;
  readonly nominal: string | undefined;
  readonly healthy: string;
  readonly bands: Readonly<Record<string, string>>;
}

/** A target under limits of a unit, of its region or of a bench. */
export function makeUnitTarget(general: Target, limits: Limits): UnitTarget {
  const target = applyLimits(general, limits);
  return {
    limits,
    nominal: target.nominal === undefined ? undefined : printLimit(target.nominal, target),
    healthy: printHealthy(target),
    bands: Object.fromEntries(target.bands.map(({ name }) => [name, printBand(name, target) ?? ''])),
  };
}

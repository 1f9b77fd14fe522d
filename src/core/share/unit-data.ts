import type { Unit, Library, MainsExposure } from '../model/library.ts';
import type { Limits, Target } from '../model/target.ts';
import { type UnitTarget, makeUnitTarget } from './unit-target.ts';

/** A unit as a page's script reads it: texts ready to be put in place. */
export interface UnitData {
  readonly title: string;
  readonly mains: MainsExposure;
  readonly hasTube: boolean;
  readonly points: Readonly<Record<string, string>>;
  /** By target slug: what stands in place of the general numbers. */
  readonly targets: Readonly<Record<string, UnitTarget>>;
  readonly differs: Readonly<Record<string, string>>;
}

/** The data file of a unit: its own points, and its own numbers for the targets it changes. */
export function makeUnitData(unit: Unit, library: Library): UnitData {
  return {
    title: unit.title,
    mains: unit.mains,
    hasTube: unit.hasTube,
    points: unit.points,
    targets: Object.fromEntries(
      [...library.targets.values()].flatMap((target) => {
        const limits = limitsOn(unit, target);
        return limits === undefined ? [] : [[target.slug, makeUnitTarget(target, limits)] as const];
      }),
    ),
    differs: unit.differs,
  };
}

/** The limits a unit or its region puts in place of a target's own, or undefined. The unit's own go first. */
function limitsOn(unit: Unit, target: Target): Limits | undefined {
  const own = Object.hasOwn(unit.targets, target.slug) ? unit.targets[target.slug] : undefined;
  const variant = unit.variants.find((name) => Object.hasOwn(target.variants, name));
  return own ?? (variant === undefined ? undefined : target.variants[variant]);
}

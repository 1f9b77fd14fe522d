import type { Target } from '../model/target.ts';
import { type UnitTarget, makeUnitTarget } from './unit-target.ts';

/** The mains of a bench, hertz. */
export type MainsHertz = 50 | 60;

/**
 * The targets that depend on the frequency of the mains, under the limits of this bench's, in the shape of a unit's own targets.
 * The text says why it differs: `114 to 126 Hz, for 60 Hz mains`. Empty where the bench does not say its frequency.
 */
export function makeMainsTargets(
  targets: Iterable<Target>,
  hertz: MainsHertz | undefined,
): Readonly<Record<string, UnitTarget>> {
  if (hertz === undefined) return {};
  const variant = `mains-${hertz}`;
  return Object.fromEntries(
    [...targets].flatMap((target) => {
      const limits = Object.hasOwn(target.variants, variant) ? target.variants[variant] : undefined;
      if (limits === undefined) return [];
      const made = makeUnitTarget(target, limits);
      return [[target.slug, { ...made, healthy: `${made.healthy}, for ${hertz}\u00a0Hz mains` }] as const];
    }),
  );
}

/** Whether a target has limits of its own for a frequency of the mains. */
export function dependsOnMains({ variants }: Target): boolean {
  return Object.keys(variants).some((name) => name.startsWith('mains-'));
}

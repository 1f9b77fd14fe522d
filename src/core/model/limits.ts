import type { SupplyKind } from './supply.ts';
import type { Library, MainsExposure, Unit } from './library.ts';
import type { Placement } from './placement.ts';
import { printBands, printHealthy, printLimit } from './target-text.ts';
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

/** What stands in a sheet in place of a target's general numbers, as texts ready to be put in place. */
export interface UnitTarget {
  /** The numbers themselves, for `applyLimits`: a reading is judged by them. A limit that is not given keeps the target's. */
  readonly limits: Limits;
  readonly nominal: string | undefined;
  readonly healthy: string;
  /** By band, and by words of bands that an answer may join, in their order: `none low`. */
  readonly bands: Readonly<Record<string, string>>;
}

/** A target under limits of a unit, of its region or of a bench. */
export function makeUnitTarget(general: Target, limits: Limits): UnitTarget {
  const target = applyLimits(general, limits);
  return {
    limits,
    nominal: target.nominal === undefined ? undefined : printLimit(target.nominal, target),
    healthy: printHealthy(target),
    bands: Object.fromEntries(listJoined(target).map((names) => [names.join(' '), printBands(names, target)])),
  };
}

/** Every band alone, then every two or more neighbours that leave another out. */
function listJoined({ bands }: Target): readonly (readonly string[])[] {
  const names = bands.map(({ name }) => name);
  const runs = names.flatMap((_, from) => names.map((__, to) => names.slice(from, to + 1)));
  return runs
    .filter(({ length }) => length > 0 && (length === 1 || length < names.length))
    .toSorted((one, other) => one.length - other.length);
}

/** A unit as a page's script reads it: texts ready to be put in place. */
export interface UnitData {
  readonly title: string;
  readonly mains: MainsExposure;
  readonly supplyKind: SupplyKind | 'unknown';
  readonly hasTube: boolean;
  readonly supplyVolts: number | undefined;
  readonly points: Readonly<Record<string, string>>;
  readonly chips: Readonly<Record<string, string>>;
  readonly placement: Placement | undefined;
  /** By target slug: what stands in place of the general numbers. */
  readonly targets: Readonly<Record<string, UnitTarget>>;
  readonly differs: Readonly<Record<string, string>>;
}

/** The data file of a unit: its own points, and its own numbers for the targets it changes. */
export function makeUnitData(unit: Unit, library: Library): UnitData {
  return {
    title: unit.title,
    mains: unit.mains,
    // Where a picture tube shares the case, that is the answer, and no step is made lighter.
    supplyKind: unit.hasTube ? 'unknown' : unit.supplyKind,
    hasTube: unit.hasTube,
    supplyVolts: unit.supplyVolts,
    points: unit.points,
    chips: unit.chips,
    placement: unit.placement,
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

/**
 * A unit's own targets beside those under the mains of the bench. What the frequency of the mains decides, the bench decides: a unit
 * built for 50 Hz that is fed with 60 Hz has the ripple of 60 Hz.
 */
export function combineTargets<Own>(
  unit: Readonly<Record<string, Own>>,
  mains: Readonly<Record<string, Own>>,
): Readonly<Record<string, Own>> {
  return { ...unit, ...mains };
}

/** Whether a target has limits of its own for a frequency of the mains. */
export function dependsOnMains({ variants }: Target): boolean {
  return Object.keys(variants).some((name) => name.startsWith('mains-'));
}

import { listParagraphs } from '#core/model/prose.ts';
import { readContent } from '#build/library.ts';
import type { Limits, Status, Target } from '#core/model/target.ts';

/** A target of the shipped content; a missing one is an error of the test that asked for it. */
export function findTarget(slug: string): Target {
  const target = readContent().library.targets.get(slug);
  if (target === undefined) throw new Error(`There is no target ${slug}.`);
  return target;
}

/** Edges of the healthy band as the content states them, in the target's own unit. */
export function healthyLimits(slug: string): readonly [low: number | undefined, high: number | undefined] {
  const band = findTarget(slug).bands.find(({ name }) => name === 'in');
  return [band?.from, band?.to];
}

/** Numbers of one variant (`pal`, `mains-60`). */
export function variantLimits(slug: string, variant: string): Limits {
  const { variants } = findTarget(slug);
  const limits = Object.hasOwn(variants, variant) ? variants[variant] : undefined;
  if (limits === undefined) throw new Error(`Target ${slug} has no variant ${variant}.`);
  return limits;
}

/** What a target's page says beyond its numbers. */
export function statementOf(slug: string): string {
  return listParagraphs(findTarget(slug).prose).join(' ');
}

/** What a caution's page says beyond its short text. */
export function reasonOf(slug: string): string {
  const caution = readContent().library.cautions.get(slug);
  if (caution === undefined) throw new Error(`There is no caution ${slug}.`);
  return listParagraphs(caution.prose).join(' ');
}

/** One row of a published table: target, limits in the target's unit, and what the content must call itself. */
export type PublishedRow = readonly [slug: string, low: number | undefined, high: number | undefined, status: Status];

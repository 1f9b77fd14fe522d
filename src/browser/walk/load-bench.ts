import type { Answer } from '#core/answer/answer.ts';
import type { InstrumentClass } from '#core/model/instrument-class.ts';
import { type BenchTree, openWalkData, type Walk, type WalkData } from '#core/answer/bench-tree.ts';
import { combineTargets, makeMainsTargets } from '#core/model/limits.ts';
import { readBench } from '../bench.ts';
import { fetchOnce } from '../kit/fetch-once.ts';
import type { UnitSheet } from '../unit-sheet.ts';
import { basePath } from '../page-data.ts';

/** A tree's data and the classes of instruments; undefined where they cannot be fetched. Written by our own build: parsed boundaries. */
export async function loadWalk(slug: string): Promise<Walk | undefined> {
  const [walk, classes] = await Promise.all([
    fetchOnce(`${basePath()}data/walks/${encodeURIComponent(slug)}.json`, (value) => value as WalkData),
    fetchOnce(`${basePath()}data/instruments.json`, (value) => value as readonly InstrumentClass[]),
  ]);
  return walk === undefined || classes === undefined ? undefined : openOnce(walk, classes);
}

const opened = new WeakMap<WalkData, Walk>();

function openOnce(data: WalkData, classes: readonly InstrumentClass[]): Walk {
  const walk = opened.get(data) ?? openWalkData(data, classes);
  opened.set(data, walk);
  return walk;
}

/** The tree as it stands on this bench: with the limits for its mains, and those of the unit, where one is chosen. */
export function benchOf({ tree, references }: Walk, unit: UnitSheet | undefined): BenchTree {
  const mains = makeMainsTargets(references.targets.values(), readBench().mainsHertz);
  const limits = Object.entries(combineTargets(unit?.targets ?? {}, mains)).map(
    ([slug, target]) => [slug, target.limits] as const,
  );
  return { tree, references, limits: Object.fromEntries(limits) };
}

/** The other trees that answers come from, by slug, by the limits of this bench; without those that cannot be fetched. */
export async function loadOthers(answers: readonly Answer[]): Promise<ReadonlyMap<string, BenchTree>> {
  const slugs = new Set(answers.flatMap(({ tree }) => tree ?? []));
  const walks = await Promise.all([...slugs].map(loadWalk));
  return new Map(
    walks.flatMap((walk) => (walk === undefined ? [] : [[walk.tree.slug, benchOf(walk, undefined)] as const])),
  );
}

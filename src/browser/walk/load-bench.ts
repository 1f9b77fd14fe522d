import type { InstrumentClass } from '#core/model/instrument-class.ts';
import { openWalkData, type Walk, type WalkData } from '#core/share/walk-data.ts';
import { makeMainsTargets } from '#core/share/mains-targets.ts';
import type { BenchTree } from '#core/walk/judge-answer.ts';
import { readBench } from '../bench.ts';
import type { UnitSheet } from '../unit-sheet.ts';
import { basePath } from '../page-data.ts';

const opened = new Map<string, Promise<Walk | undefined>>();

/** A tree's data and the classes of instruments, fetched once; undefined where they cannot be had, and tried again next time. */
export function loadWalk(slug: string): Promise<Walk | undefined> {
  const known = opened.get(slug);
  if (known !== undefined) return known;
  const request = readWalk(slug).catch(() => {
    opened.delete(slug);
    return undefined;
  });
  opened.set(slug, request);
  return request;
}

async function readWalk(slug: string): Promise<Walk> {
  const base = basePath();
  const [walk, classes] = await Promise.all([
    fetchJson(`${base}data/walks/${slug}.json`),
    fetchJson(`${base}data/instruments.json`),
  ]);
  // Both written by our own build: a parsed boundary.
  return openWalkData(walk as WalkData, classes as readonly InstrumentClass[]);
}

async function fetchJson(address: string): Promise<unknown> {
  const answer = await fetch(address);
  if (!answer.ok) throw new Error(`No answer from ${address}`);
  return answer.json();
}

/** The tree as it stands on this bench: with the limits for its mains, and those of the unit before them, where one is chosen. */
export function benchOf({ tree, references }: Walk, unit: UnitSheet | undefined): BenchTree {
  const mains = makeMainsTargets(references.targets.values(), readBench().mainsHertz);
  const limits = Object.entries({ ...mains, ...unit?.targets }).map(([slug, target]) => [slug, target.limits] as const);
  return { tree, references, limits: Object.fromEntries(limits) };
}

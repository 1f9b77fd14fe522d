import { makeMainsTargets } from '#core/model/limits.ts';
import { applyUnit } from './apply-unit.ts';
import { readBench } from './bench.ts';
import { loadWalk } from './walk/load-bench.ts';
import type { WalkPage } from './walk/walk-page.ts';

/** Where this bench's mains is known, puts the limits for it into the sheet, before those of a unit chosen. */
export async function applyMains(root: ParentNode, page: WalkPage): Promise<void> {
  const { mainsHertz } = readBench();
  if (mainsHertz === undefined) return;
  const walk = await loadWalk(page.map.slug);
  if (walk === undefined) {
    page.say(`The limits for ${mainsHertz} Hz mains could not be fetched; the general ones are shown.`);
    return;
  }
  applyUnit(root, page.unit, page.map.slug, makeMainsTargets(walk.references.targets.values(), mainsHertz));
}

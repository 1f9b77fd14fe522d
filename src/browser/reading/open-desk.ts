import { benchOf, loadWalk } from '../walk/load-bench.ts';
import type { WalkPage } from '../walk/walk-page.ts';
import type { DeskField } from './desk.ts';
import { ReadingDesk } from './reading-desk.ts';
import { SiblingDesk } from './sibling-desk.ts';

/** Brings a reading field to life; call what it returns with every change. Throws where the tree's data cannot be fetched. */
export async function openDesk(field: DeskField, page: WalkPage): Promise<(page: WalkPage) => void> {
  const walk = await loadWalk(page.map.slug);
  if (walk === undefined) throw new Error('The data of the tree cannot be fetched.');
  const bench = benchOf(walk, page.unit);
  const { siblings } = field.dataset;
  const desk = siblings === undefined ? new ReadingDesk(field, bench) : new SiblingDesk(field, bench, Number(siblings));
  desk.update(page, bench);
  return (changed) => desk.update(changed, benchOf(walk, changed.unit));
}

import { benchOf, loadWalk } from '../walk/load-bench.ts';
import type { WalkPage } from '../walk/walk-page.ts';
import { type Desk, type DeskField, ReadingDesk } from './reading-desk.ts';
import { SiblingDesk } from './sibling-desk.ts';

/** Brings a reading field to life. Throws where the tree's data cannot be had; the field then says so. */
export async function openDesk(field: DeskField, page: WalkPage): Promise<Desk> {
  const walk = await loadWalk(page.map.slug);
  if (walk === undefined) throw new Error('The data of the tree cannot be had.');
  const desk =
    field.dataset['siblings'] === undefined
      ? new ReadingDesk(field, benchOf(walk, page.unit))
      : new SiblingDesk(field, benchOf(walk, page.unit), Number(field.dataset['siblings']));
  desk.update(page, benchOf(walk, page.unit));
  return { update: (changed) => desk.update(changed, benchOf(walk, changed.unit)) };
}

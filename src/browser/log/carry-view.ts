import { carryReadings } from '#core/log/job-in-tree.ts';
import { addressOf } from '#core/link/address.ts';
import { type Answer, emptyLinkState } from '#core/answer/answer.ts';
import { printLinkState } from '#core/link/fragment.ts';
import { makeElement } from '../kit/elements.ts';
import { basePath } from '../page-data.ts';
import { sayTreeUnit } from '../recorder/tell-unit.ts';
import { readJob } from './job-desk.ts';
import { loadWalk } from '../walk/load-bench.ts';

/** Says how many readings of a job hold in another tree, with the link that takes them there. */
export async function showCarried(place: HTMLElement, id: string, into: string): Promise<void> {
  const carried = await findCarried(id, into);
  if (carried === undefined) {
    place.textContent = 'That tree could not be loaded.';
    return;
  }
  const { answers, unit, title } = carried;
  sayTreeUnit(id, into, 'same');
  const fragment = printLinkState({ ...emptyLinkState, unit, answers });
  const address = `${addressOf({ kind: 'tree', tree: into }, basePath())}${fragment === '' ? '' : `#${fragment}`}`;
  const count = answers.length === 1 ? '1 reading holds' : `${answers.length} readings hold`;
  place.replaceChildren(`${count} there. `, makeElement('a', { class: 'press', href: address }, `Open “${title}”`));
}

interface Carried {
  readonly answers: readonly Answer[];
  readonly unit: string | undefined;
  readonly title: string;
}

/** The readings of a job that hold in another tree; undefined where that tree cannot be loaded. */
export async function findCarried(id: string, into: string): Promise<Carried | undefined> {
  const job = await readJob(id);
  const slugs = new Set([into, ...job.answers.map(({ tree }) => tree), ...job.repairs.map(({ event }) => event.tree)]);
  const loaded = await Promise.all([...slugs].map(loadWalk));
  const trees = new Map(loaded.flatMap((walk) => (walk === undefined ? [] : [[walk.tree.slug, walk.tree] as const])));
  const tree = trees.get(into);
  return tree === undefined
    ? undefined
    : { answers: carryReadings(job, trees, tree), unit: job.unit.slug, title: tree.title };
}

/** Says on a page of that tree how many readings came along into its address. */
export function sayCarried({ length }: readonly Answer[]): string {
  if (length === 0)
    return 'None of the job’s readings holds here: other targets, or a repair since can have changed them.';
  return length === 1 ? 'One reading added.' : `${length} readings added.`;
}

import { carryReadings } from '#core/bench-log/carry-readings.ts';
import { addressOf } from '#core/share/address.ts';
import { printAnswerValue } from '#core/share/answer-value.ts';
import { type Answer, emptyLinkState, type LinkState, printLinkState } from '#core/share/link-state.ts';
import { makeElement } from '../make-element.ts';
import { write } from '../open-job.ts';
import { basePath } from '../page-data.ts';
import { readJob } from './job-desk.ts';
import { loadTree } from './load-tree.ts';
import { verdictsKey } from './record-walk.ts';

/** Says how many readings of a job hold in another tree, with the link that takes them there. */
export async function showCarried(place: HTMLElement, id: string, into: string): Promise<void> {
  const carried = await findCarried(id, into);
  if (carried === undefined) {
    place.textContent = 'That tree could not be loaded.';
    return;
  }
  const { answers, board, title } = carried;
  const fragment = printLinkState({ ...emptyLinkState, board, answers });
  const address = `${addressOf({ kind: 'tree', tree: into }, basePath())}${fragment === '' ? '' : `#${fragment}`}`;
  const count = answers.length === 1 ? '1 reading goes' : `${answers.length} readings go`;
  place.replaceChildren(`${count} along. `, makeElement('a', { class: 'press', href: address }, `Open “${title}”`));
}

interface Carried {
  readonly answers: readonly Answer[];
  readonly board: string | undefined;
  readonly title: string;
}

/** The readings of a job that hold in another tree; undefined where that tree cannot be loaded. */
export async function findCarried(id: string, into: string): Promise<Carried | undefined> {
  const job = await readJob(id);
  const slugs = new Set([into, ...job.answers.map(({ tree }) => tree), ...job.repairs.map(({ event }) => event.tree)]);
  const loaded = await Promise.all([...slugs].map(loadTree));
  const trees = new Map(loaded.filter((tree) => tree !== undefined).map((tree) => [tree.slug, tree] as const));
  const tree = trees.get(into);
  return tree === undefined
    ? undefined
    : { answers: carryReadings(job, trees, tree), board: job.unit.board, title: tree.title };
}

/** On a page of that tree: puts the readings into its address, marked in the log as taken earlier. Says how many there are. */
export async function carryHere(
  id: string,
  { slug, state }: { readonly slug: string; readonly state: LinkState },
): Promise<string> {
  const answers = (await findCarried(id, slug))?.answers ?? [];
  if (answers.length === 0)
    return 'None of the job’s readings holds here: other targets, or a repair since can have changed them.';
  const entries = answers.map((answer) => [
    `${slug}/${answer.node}`,
    { value: printAnswerValue(answer), verdict: 'read earlier in this job' },
  ]);
  write('session', verdictsKey, JSON.stringify(Object.fromEntries(entries)));
  location.hash = printLinkState({ ...state, answers });
  return answers.length === 1 ? 'One reading came along.' : `${answers.length} readings came along.`;
}

import type { EventDraft } from '#core/bench-log/event.ts';
import { keyOfAnswer } from '#core/bench-log/replay-events.ts';
import { printAnswerValue } from '#core/share/answer-value.ts';
import type { Answer, LinkState } from '#core/share/link-state.ts';
import type { TreeMap } from '#core/share/tree-map.ts';
import { read } from '../open-job.ts';
import { beginJob, openOrBegin, readJob, record } from './job-desk.ts';

/** What a page has to tell the log. */
export interface Walked {
  readonly map: TreeMap;
  readonly state: LinkState;
  /** Answers given just now; the others of the state came with the link or were told before. */
  readonly added: readonly Answer[];
  /** Answers the reader took back by Back or Start again. */
  readonly removed: readonly Answer[];
  /** Every answer of the state is new to the job. */
  readonly isFirst: boolean;
}

/** Key under which a page leaves what it judged of a reading: `tree/node` to value and verdict. */
export const verdictsKey = 'halfsplit.verdicts';

/**
 * Writes what was walked into the open job, or into a new one. An answer that the job holds already is not written again, and one that
 * only came along does not replace what another tab has read since. Gives back the job's id.
 */
export async function recordWalk({ map, state, added, removed, isFirst }: Walked, isNew: boolean): Promise<string> {
  const id = isNew ? (await beginJob([])).id : await openOrBegin();
  const job = await readJob(id);
  const standing = new Map(job.answers.map((answer) => [keyOfAnswer(answer), answer] as const));
  const keyOf = ({ node, stage }: Answer): string => keyOfAnswer({ tree: map.slug, node, stage });
  const addedKeys = new Set(added.map(keyOf));
  const drafts: EventDraft[] = [];
  if (state.board !== undefined && state.board !== job.unit.board) drafts.push({ kind: 'unit', board: state.board });
  for (const answer of isFirst ? state.answers.filter(({ tree }) => tree === undefined) : added) {
    const known = standing.get(keyOf(answer));
    if (known?.value === printAnswerValue(answer) || (known !== undefined && !addedKeys.has(keyOf(answer)))) continue;
    drafts.push(makeAnswer(map, answer));
  }
  for (const answer of removed) {
    const known = standing.get(keyOf(answer));
    if (known?.value === printAnswerValue(answer)) drafts.push({ kind: 'undo', of: known.id });
  }
  if (drafts.length > 0) await record(id, drafts);
  return id;
}

function makeAnswer(map: TreeMap, answer: Answer): EventDraft {
  const { node, stage, instrument } = answer;
  const value = printAnswerValue(answer);
  const question = map.nodes.find(({ id }) => id === node)?.title;
  const verdict = readVerdict(`${map.slug}/${stage === undefined ? node : `${node}/${stage}`}`, value);
  return {
    kind: 'answer',
    tree: map.slug,
    treeTitle: map.title.slice(0, 120),
    node,
    value,
    ...(stage === undefined ? {} : { stage }),
    ...(question === undefined ? {} : { question: question.slice(0, 300) }),
    ...(instrument === undefined || instrument.length > 60 ? {} : { instrument }),
    ...(verdict === undefined ? {} : { verdict }),
  };
}

function readVerdict(key: string, value: string): string | undefined {
  try {
    const kept: unknown = JSON.parse(read('session', verdictsKey) ?? '{}');
    const entry: unknown = Object(kept)[key];
    const { value: of, verdict } = Object(entry) as Readonly<Record<string, unknown>>;
    return of === value && typeof verdict === 'string' && verdict !== '' ? verdict.slice(0, 300) : undefined;
  } catch {
    return undefined;
  }
}

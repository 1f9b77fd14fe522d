import type { EventDraft } from '#core/bench-log/event.ts';
import { type Answer, keyOfAnswer, type LinkState, printAnswerValue } from '#core/answer/answer.ts';
import type { TreeMap } from '#core/link/tree-map.ts';
import type { JudgeAnswer } from './judge-walked.ts';
import { beginJob, openOrBegin, readJob, record } from './job-desk.ts';

/** What a page has to tell the log. */
export interface Walked {
  readonly map: Pick<TreeMap, 'slug' | 'title' | 'nodes'>;
  readonly state: LinkState;
  /** Answers given just now; the others of the state came with the link or were told before. */
  readonly added: readonly Answer[];
  /** Answers the reader took back by Back or Start again. */
  readonly removed: readonly Answer[];
  /** Every answer of the state is new to the job. */
  readonly isFirst: boolean;
  /** Those of them that were read earlier in this job, in another tree. */
  readonly carried?: readonly Answer[];
}

/**
 * Writes what was walked into the open job, or into a new one. An answer that the job holds already is not written again, and one that
 * only came along does not replace what another tab has read since. `at`: when it was answered, in milliseconds since 1970, UTC. Gives
 * back the job's id.
 */
export async function recordWalk(walked: Walked, isNew: boolean, at: number): Promise<string> {
  const { map, state, added, removed, isFirst, carried = [] } = walked;
  const judge = await findJudge(walked);
  const id = isNew ? (await beginJob([])).id : await openOrBegin();
  const job = await readJob(id);
  const standing = new Map(job.answers.map((answer) => [keyOfAnswer(answer), answer] as const));
  const keyOf = ({ node, stage }: Answer): string => keyOfAnswer({ tree: map.slug, node, stage });
  const addedKeys = new Set(added.map(keyOf));
  const drafts: EventDraft[] = [];
  if (state.unit !== undefined && state.unit !== job.unit.slug) drafts.push({ kind: 'unit', slug: state.unit });
  for (const answer of isFirst ? state.answers.filter(({ tree }) => tree === undefined) : added) {
    const known = standing.get(keyOf(answer));
    if (known?.value === printAnswerValue(answer) || (known !== undefined && !addedKeys.has(keyOf(answer)))) continue;
    const isCarried = carried.some(
      (one) => keyOf(one) === keyOf(answer) && printAnswerValue(one) === printAnswerValue(answer),
    );
    const verdict = [judge?.(answer).verdict ?? '', isCarried ? 'read earlier in this job' : ''];
    drafts.push(
      makeAnswer(
        map,
        { ...answer, instrument: judge?.(answer).instrument ?? answer.instrument },
        verdict.filter((text) => text !== '').join('; '),
      ),
    );
  }
  for (const answer of removed) {
    const known = standing.get(keyOf(answer));
    if (known?.value === printAnswerValue(answer)) drafts.push({ kind: 'undo', of: known.id });
  }
  if (drafts.length > 0) await record(id, drafts, at);
  return id;
}

function makeAnswer(
  map: Walked['map'],
  answer: Omit<Answer, 'instrument'> & { readonly instrument: string | undefined },
  verdict: string,
): EventDraft {
  const { node, stage, instrument } = answer;
  const value = printAnswerValue(answer);
  const question = map.nodes.find(({ id }) => id === node)?.title;
  return {
    kind: 'answer',
    tree: map.slug,
    treeTitle: map.title.slice(0, 120),
    node,
    value,
    ...(stage === undefined ? {} : { stage }),
    ...(question === undefined ? {} : { question: question.slice(0, 300) }),
    ...(instrument === undefined || instrument.length > 60 ? {} : { instrument }),
    ...(verdict === '' ? {} : { verdict: verdict.slice(0, 300) }),
  };
}

/** How long an answer waits for what it is judged and told by: then it is written without a verdict, which is better than lost. */
const judgingMilliseconds = 2000;

/** Judges readings and finds the words of buttons; undefined where nothing was answered, or where the tree's data cannot be had now. */
async function findJudge({ map, state }: Walked): Promise<JudgeAnswer | undefined> {
  if (state.answers.length === 0) return undefined;
  const loaded = import('./judge-walked.ts').then(({ makeJudge }) => makeJudge(map.slug, state.unit));
  const late = new Promise<undefined>((resolve) => setTimeout(resolve, judgingMilliseconds, undefined));
  return Promise.race([loaded.catch(() => undefined), late]);
}

import type { EventDraft } from '#core/log/event.ts';
import type { Job } from '#core/log/job.ts';
import { findNode } from '#core/model/node.ts';
import { printWord } from '#core/model/target-text.ts';
import { isWord, keyOfAnswer, readAnswerValue, readingsIn } from '#core/answer/answer.ts';
import { readRecord } from '#core/model/read-record.ts';
import { areNeighbours, describeVerdict, nameInstrument } from '#core/answer/judge-answer.ts';
import type { BenchTree } from '#core/answer/bench-tree.ts';
import { sayAnswer, sayButton } from '#core/answer/say.ts';
import { listNames, read, write } from '../kit/storage.ts';
import { withLock } from '../log/database.ts';
import { beginJobHere, openOrBegin, readJob, record } from '../log/job-desk.ts';
import { findOpenJob } from '../open-job.ts';
import { markJobHere, sayTreeUnit } from './tell-unit.ts';
import { fetchUnitSheet } from '../unit-sheet.ts';
import { benchOf, loadWalk } from '../walk/load-bench.ts';
import type { Note, NotedAnswer } from './notes.ts';

/** How long a page waits for another that is writing: one that the system has frozen must not stop all others. */
const waitMilliseconds = 5000;
/** How long an answer waits for what it is judged by: then it is written without a verdict, which is better than lost. */
const judgingMilliseconds = 2000;

/**
 * Turns every note into events of the open job, or of a new one, the oldest first, then forgets it. One tab at a time, so that nothing
 * is written twice. Notes that ask for the reader's word stay. Throws where one cannot be written: it stays too, and the next page
 * tries again.
 */
export async function drainNotes(): Promise<void> {
  for (const name of listNames('note')) await withLock('halfsplit.walk', () => drainNote(name), waitMilliseconds);
}

/** The job of which notes ask whether it is the unit on the bench; undefined where none asks, or where it is open no more. */
export function findAskedJob(): string | undefined {
  return listNames('note').flatMap((name) => readNote(name)?.asks ?? [])[0];
}

/**
 * The reader has said whose unit is on the bench: that of the open job, or another, for which a job is begun. The notes that ask, and
 * the tree of this page, belong to it.
 */
export async function answerAsked(isNew: boolean, tree: string | undefined): Promise<void> {
  await withLock('halfsplit.walk', async () => {
    const open = findOpenJob();
    if (isNew) await beginJobHere();
    else if (open !== undefined) {
      markJobHere(open);
      if (tree !== undefined) sayTreeUnit(open.id, tree, 'same');
    }
    for (const name of listNames('note')) {
      const note = readNote(name, open?.id);
      if (note?.asks === undefined) continue;
      if (!isNew) sayTreeUnit(note.asks, note.tree, 'same');
      write('note', JSON.stringify({ ...note, asks: undefined }), name);
    }
  });
}

/** Undefined for a note that another page has written meanwhile, and for anything that is none: that is forgotten. */
function readNote(name: string, open = findOpenJob()?.id): Note | undefined {
  const text = read('note', name);
  const value = text === undefined ? undefined : readRecord(text);
  const lists = [value?.['given'], value?.['came'], value?.['taken'], value?.['drafts']];
  const isNote =
    typeof value?.['at'] === 'number' &&
    typeof value['tree'] === 'string' &&
    typeof value['treeTitle'] === 'string' &&
    lists.every((list) => Array.isArray(list) && list.every((item) => typeof item === 'object' && item !== null));
  if (!isNote) {
    write('note', undefined, name);
    return undefined;
  }
  // Written by this browser alone: a parsed boundary. Each event made of it is checked again before it is stored.
  const note = value as unknown as Note;
  return note.asks === open ? note : { ...note, asks: undefined };
}

async function drainNote(name: string): Promise<void> {
  const note = readNote(name);
  if (note === undefined || note.asks !== undefined) return;
  // What no job holds cannot be taken back.
  if (!isOnlyTaken(note) || findOpenJob() !== undefined) {
    const judge = await findJudge(note);
    const job = await readJob(await openOrBegin());
    const drafts = makeDrafts(note, job, judge);
    if (drafts.length > 0) await record(job.id, drafts, note.at);
  }
  write('note', undefined, name);
}

/** What of a note the job does not hold yet. What only came along replaces nothing, and what was taken back in the log stays so. */
function makeDrafts(note: Note, job: Job, judge: Judge | undefined): readonly EventDraft[] {
  const { tree, unit, given, came, taken, isCarried, drafts } = note;
  const keyOf = ({ node, stage }: NotedAnswer): string => keyOfAnswer({ tree, node, stage });
  const standing = new Map(job.answers.map((answer) => [keyOfAnswer(answer), answer] as const));
  const held = new Set(job.timeline.flatMap(({ event }) => (event.kind === 'answer' ? [keyOfAnswer(event)] : [])));
  return [
    ...(unit === undefined || unit === job.unit.slug || isOnlyTaken(note)
      ? []
      : [{ kind: 'unit' as const, slug: unit }]),
    ...came.filter((answer) => !held.has(keyOf(answer))).map((answer) => makeAnswer(answer, note, judge, '')),
    ...given
      .filter((answer) => standing.get(keyOf(answer))?.value !== answer.value)
      .map((answer) => makeAnswer(answer, note, judge, isCarried ? 'read earlier in this job' : '')),
    ...taken.flatMap((answer) => {
      const known = standing.get(keyOf(answer));
      return known?.value === answer.value ? [{ kind: 'undo' as const, of: known.id }] : [];
    }),
    ...drafts,
  ];
}

function isOnlyTaken({ given, taken }: Note): boolean {
  return given.length === 0 && taken.length > 0;
}

function makeAnswer(
  { node, stage, value, instrument, question, said }: NotedAnswer,
  { tree, treeTitle }: Note,
  judge: Judge | undefined,
  origin: string,
): EventDraft {
  const judged = judge?.({ node, stage, value, instrument });
  const words = judged?.said ?? (isWord(readAnswerValue(value)?.value ?? '') ? said : undefined);
  const verdict = [judged?.verdict ?? '', origin].filter((text) => text !== '').join('; ');
  const used = judged?.instrument ?? instrument;
  const asked = [question, judged?.stage ?? stage?.replaceAll('-', ' ')]
    .filter((text) => text !== undefined && text !== '')
    .join(': ');
  return {
    kind: 'answer',
    tree,
    treeTitle: treeTitle.slice(0, 120),
    node,
    value,
    ...(stage === undefined ? {} : { stage }),
    ...(asked === '' ? {} : { question: asked.slice(0, 300) }),
    ...(used === undefined || used.length > 60 ? {} : { instrument: used }),
    ...(words === undefined || words === '' ? {} : { said: words.slice(0, 300) }),
    ...(verdict === '' ? {} : { verdict: verdict.slice(0, 300) }),
  };
}

interface Judged {
  /** Title of the stage; undefined for none. */
  readonly stage: string | undefined;
  /** What a reading came to; empty for nothing. */
  readonly verdict: string;
  /** The words of the button, where they are more than the word itself; empty for none. */
  readonly said: string;
  readonly instrument: string | undefined;
}

/** What an answer comes to on this bench. */
type Judge = (answer: Pick<NotedAnswer, 'node' | 'stage' | 'value' | 'instrument'>) => Judged;

/** Undefined where nothing was answered, or where the tree's data or the sheet of its unit cannot be fetched now. */
async function findJudge({ tree, unit, given, came }: Note): Promise<Judge | undefined> {
  if (given.length + came.length === 0) return undefined;
  const late = new Promise<undefined>((resolve) => setTimeout(resolve, judgingMilliseconds, undefined));
  return Promise.race([loadJudge(tree, unit), late]);
}

async function loadJudge(tree: string, slug: string | undefined): Promise<Judge | undefined> {
  const [walk, unit] = await Promise.all([loadWalk(tree), slug === undefined ? undefined : fetchUnitSheet(slug)]);
  // Without the sheet of its unit a reading would be judged by the wrong limits.
  if (walk === undefined || (slug !== undefined && unit === undefined)) return undefined;
  const bench = benchOf(walk, unit);
  return (answer) => judge(answer, bench);
}

function judge({ node, stage, value, instrument }: Parameters<Judge>[0], bench: BenchTree): Judged {
  const parts = readAnswerValue(value) ?? { value };
  const answer = { tree: undefined, node, stage, ...parts, ...(instrument === undefined ? {} : { instrument }) };
  const used = nameInstrument(answer, bench);
  if (areNeighbours(answer, bench)) return { stage: undefined, verdict: 'not decided yet', said: '', instrument: used };
  const sentence = (describeVerdict(answer, bench) ?? '').replace(/\.$/, '');
  const asked = findNode(bench.tree, node);
  const check = isWord(answer.value) ? asked : undefined;
  const title = asked?.kind === 'path' ? asked.stages.find(({ id }) => id === stage)?.title : undefined;
  const isComputed = !isWord(answer.value) && readingsIn(answer).length > 1;
  const words = isComputed
    ? sayAnswer(answer, bench)
    : title !== undefined
      ? sayAnswer({ ...answer, readings: [] }, bench)
      : check?.kind === 'check'
        ? sayButton(check, answer.value)
        : undefined;
  return {
    stage: title,
    verdict: sentence.charAt(0).toLowerCase() + sentence.slice(1),
    said: words === undefined || (title === undefined && words === printWord(answer.value)) ? '' : words,
    instrument: used,
  };
}

import type { EventDraft } from '#core/log/event.ts';
import { type Answer, keyOfAnswer, type LinkState, printAnswerValue } from '#core/answer/answer.ts';
import { parseLinkState } from '#core/link/fragment.ts';
import { namesOf, type TreeMap } from '#core/link/tree-map.ts';
import { read, write } from '../kit/storage.ts';
import { findOpenJob, isJobHere, isUnitInDoubt } from '../open-job.ts';

/**
 * One press on its way into the log: written at once where the press happens, before the page may go away, and turned into events by
 * drain-notes.ts, on this page or on a later one. What an address brings along is no press and leaves no note.
 */
export interface Note {
  /** When it was pressed: milliseconds since 1970, UTC. */
  readonly at: number;
  readonly tree: string;
  readonly treeTitle: string;
  readonly unit: string | undefined;
  /** Answers given by this press. */
  readonly given: readonly NotedAnswer[];
  /** The other answers of the address: they go into a job that has never held them. */
  readonly came: readonly NotedAnswer[];
  /** Answers taken back by this press. */
  readonly taken: readonly NotedAnswer[];
  /** The answers given were read earlier in this job, in another tree. */
  readonly isCarried: boolean;
  /** What else happened: a repair, its result, where the mains is. */
  readonly drafts: readonly EventDraft[];
  /** Id of the job of which the reader must say first whether it is the unit on the bench. */
  readonly asks: string | undefined;
}

export interface NotedAnswer {
  readonly node: string;
  readonly stage: string | undefined;
  /** As in the fragment. */
  readonly value: string;
  readonly instrument: string | undefined;
  readonly question: string | undefined;
  /** The words of the button, where one was pressed. */
  readonly said: string | undefined;
}

/** After so long a pause the open job may be another unit: ask before anything is written into it. */
const freshMilliseconds = 12 * 3_600_000;
/** Presses of one millisecond keep their order. */
let count = 0;

interface Press {
  readonly isTakingBack?: boolean;
  readonly said?: string | undefined;
}

/**
 * Notes what a press changes of the answers of this tree. Only a press that takes back notes what is missing afterwards, and not where
 * it notes a repair: what was read before a repair was read all the same.
 */
export function notePress(map: TreeMap, before: LinkState, after: LinkState, press: Press = {}): void {
  const isTakingBack = press.isTakingBack === true && after.did.length <= before.did.length;
  const given = own(after).filter((answer) => !own(before).some((one) => spell(one) === spell(answer)));
  const keys = new Set(own(after).map(keyOfAnswer));
  const taken = isTakingBack ? own(before).filter((answer) => !keys.has(keyOfAnswer(answer))) : [];
  if (given.length + taken.length === 0) return;
  if (taken.length > 0) keepTakenBack([...readTakenBack(), ...taken.map((answer) => `${map.slug}/${spell(answer)}`)]);
  leave(map, after, { given, taken, said: press.said });
}

/** Notes events that belong to what the page of this tree shows; its answers go into the job too. */
export function noteEvents(map: TreeMap, state: LinkState, drafts: readonly EventDraft[]): void {
  leave(map, state, { drafts, isAsked: false });
}

/** Notes readings of the open job that hold in this tree too. */
export function noteCarried(map: TreeMap, state: LinkState): void {
  leave(map, state, { given: own(state), isCarried: true });
}

/** The answers that the browser’s Back or Forward puts in again after a press in this tab had taken them back. */
export function noteRegained(map: TreeMap): void {
  const known = readTakenBack();
  if (known.length === 0) return;
  const { state } = parseLinkState(location.hash, namesOf(map));
  const given = own(state).filter((answer) => known.includes(`${map.slug}/${spell(answer)}`));
  if (given.length === 0) return;
  keepTakenBack(known.filter((one) => !given.some((answer) => one === `${map.slug}/${spell(answer)}`)));
  leave(map, state, { given });
}

/** For a browser that keeps nothing from one page to the next: what the address holds was answered on the page before. */
export function noteAddress(map: TreeMap): void {
  const { state } = parseLinkState(location.hash, namesOf(map));
  if (own(state).length > 0) leave(map, state, { given: own(state) });
}

interface Content extends Partial<Pick<Note, 'drafts' | 'isCarried'>> {
  readonly given?: readonly Answer[];
  readonly taken?: readonly Answer[];
  readonly said?: string | undefined;
  readonly isAsked?: boolean;
}

function leave(map: TreeMap, state: LinkState, content: Content): void {
  const { given = [], taken = [], drafts = [], isCarried = false, said, isAsked = true } = content;
  const at = Date.now();
  const job = findOpenJob();
  const isStale = isAsked && job !== undefined && !isJobHere(job.id) && at - job.changedAt > freshMilliseconds;
  const isAsking = isStale || (job !== undefined && !job.trees.includes(map.slug) && isUnitInDoubt(map.slug));
  const isOnlyTaken = given.length === 0 && taken.length > 0;
  const came = isOnlyTaken ? [] : own(state).filter((answer) => !given.includes(answer));
  const toNoted = (answer: Answer, words?: string): NotedAnswer => ({
    node: answer.node,
    stage: answer.stage,
    value: printAnswerValue(answer),
    instrument: answer.instrument,
    question: map.nodes.find(({ id }) => id === answer.node)?.title,
    said: words,
  });
  const note: Note = {
    at,
    tree: map.slug,
    treeTitle: map.title,
    unit: state.unit,
    given: given.map((answer) => toNoted(answer, said)),
    came: came.map((answer) => toNoted(answer)),
    taken: taken.map((answer) => toNoted(answer)),
    isCarried,
    drafts,
    asks: isAsking ? job?.id : undefined,
  };
  count += 1;
  const chance = crypto.getRandomValues(new Uint32Array(1))[0]?.toString(36) ?? '';
  write('note', JSON.stringify(note), `${at.toString(36)}-${count.toString(36).padStart(4, '0')}-${chance}`);
}

/** Answers of this tree; those of others are told by their own pages. */
function own({ answers }: LinkState): readonly Answer[] {
  return answers.filter(({ tree }) => tree === undefined);
}

function spell(answer: Answer): string {
  return `${keyOfAnswer(answer)}=${printAnswerValue(answer)}`;
}

const mostTakenBack = 100;

function readTakenBack(): readonly string[] {
  return (read('takenBack') ?? '').split('\n').filter((line) => line !== '');
}

function keepTakenBack(lines: readonly string[]): void {
  write('takenBack', lines.length === 0 ? undefined : lines.slice(-mostTakenBack).join('\n'));
}

import { listNames, read, write } from '../kit/storage.ts';
import type { Walked } from './record-walk.ts';

/**
 * A walk on its way into the log. Writing takes a moment; whoever leaves the page or closes the browser in the middle of it loses
 * nothing, as the next page that shows the log or writes into it finds the note (record-noted.ts).
 */
export interface NotedWalk {
  readonly walked: Walked;
  /** It begins a new job. */
  readonly isNew: boolean;
  /** Milliseconds since 1970, UTC: when it was answered. */
  readonly at: number;
}

/** Notes a walk at once, and gives back the key of the note. */
export function noteWalk({ walked, isNew, at }: NotedWalk): string {
  const { map, state } = walked;
  // Only the questions that were answered: the note is small, and gone in a moment.
  const asked = new Set(state.answers.map(({ node }) => node));
  const short = { ...map, nodes: map.nodes.filter(({ id }) => asked.has(id)) };
  const key = `${at.toString(36)}-${crypto.getRandomValues(new Uint32Array(1))[0]?.toString(36)}`;
  write('note', JSON.stringify({ walked: { ...walked, map: short }, isNew, at }), key);
  return key;
}

/** Keys of the notes that pages left behind, oldest first. */
export function listNoted(): readonly string[] {
  return listNames('note');
}

/** What was noted under a key; undefined where another page has written it into the log meanwhile. */
export function readNoted(key: string): NotedWalk | undefined {
  const text = read('note', key);
  // Written by this browser alone: a parsed boundary. Whatever comes of it is checked again before it is stored.
  return text === undefined ? undefined : (JSON.parse(text) as NotedWalk);
}

/** It lies in the log. */
export function forgetNoted(key: string): void {
  write('note', undefined, key);
}

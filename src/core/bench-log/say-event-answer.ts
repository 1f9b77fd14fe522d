import { findAnswerText } from '../answer/say.ts';
import { readAnswerValue } from '../answer/answer.ts';
import type { EventOf } from './event.ts';

/** An answer of the log in words. */
export interface SaidAnswer {
  /** The words of the button that was pressed, where the log holds them, else the bare word or the reading with its unit. */
  readonly said: string;
  /** What a reading came to; empty where there is nothing to add. */
  readonly verdict: string;
}

/** The words of the button as they stand in front of `verdict`, in quotation marks, so that an earlier version of the page shows them beside the word. */
export function quoteButton(words: string): string {
  return `“${words.replaceAll('”', "'")}”`;
}

/**
 * Says an answer as its page did.
 * @example sayEventAnswer({ …, value: 'none', verdict: '“No more than expected”' }).said // 'No more than expected'
 */
export function sayEventAnswer({
  tree,
  node,
  stage,
  value,
  verdict = '',
}: Pick<EventOf<'answer'>, 'tree' | 'node' | 'stage' | 'value' | 'verdict'>): SaidAnswer {
  const answer = readAnswerValue(value) ?? { value };
  const [, words, rest = ''] = /^“([^”]+)”(?:; (.*))?$/su.exec(verdict) ?? [];
  const bare = findAnswerText({ tree, node, stage, ...answer });
  if (words === undefined) return { said: bare, verdict };
  // What was read stands behind the word, as it does behind the bare one.
  const behind = bare.slice(findAnswerText({ tree, node, stage: undefined, value: answer.value }).length);
  return { said: `${words}${behind}`, verdict: rest };
}

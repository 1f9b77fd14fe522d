import { printWord } from '../model/target-text.ts';
import { printLinkText } from '../quantity/print-link-text.ts';
import { isWord, readShare } from './answer-value.ts';
import type { Answer } from './link-state.ts';

/** An answer as a person reads it: `In range`, `bad at amp-in`, `4.71 V`, `3 of 8 times`, `Low (read 4.74 V)`. */
export function findAnswerText({ value, stage, readings = [] }: Answer): string {
  const said = isWord(value)
    ? printSaid(value)
    : readings.length > 1
      ? `${readings.length} readings`
      : printLinkText(value);
  const behind = !isWord(value) || readings.length === 0 ? '' : ` (read ${readings.map(printLinkText).join(', ')})`;
  return stage === undefined ? `${said}${behind}` : `${said}${behind} at ${stage.replaceAll('-', ' ')}`;
}

function printSaid(word: string): string {
  const share = readShare(word);
  if (share !== undefined) return `${share.times} of ${share.tries} times`;
  return word === 'unseen' ? 'Not seen while testing' : printWord(word);
}

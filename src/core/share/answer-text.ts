import { printWord } from '../model/target-text.ts';
import type { Answer } from './link-state.ts';

/** An answer as a person reads it: `In range`, `bad at amp-in`, `4.71V`. */
export function findAnswerText({ value, stage }: Answer): string {
  const isWord = /^[a-z]/.test(value);
  const said = isWord ? printWord(value) : value;
  return stage === undefined ? said : `${said} at ${stage.replaceAll('-', ' ')}`;
}

import type { Check } from '#core/model/fault-tree.ts';
import { wordsOfCheck } from '#core/model/node.ts';
import { prosePlaces } from './prose-places.ts';
import { defineTreeRule } from './rule.ts';

/** `answer in.`, `answer that it follows.`, `answer still short and …`: whatever follows up to the end of what is told. */
const advice = /\banswers? (?:that it |with )?([a-z]+(?:[ -][a-z]+){0,2}?)(?=[.,;:]|\s(?:and|or|when)\b|$)/gi;
/** What stands for an answer without naming it. */
const pointers: readonly string[] = ['so', 'yes', 'no'];

export const namesButton = defineTreeRule({
  id: 'names-button',
  group: 'language',
  says: 'A step that tells which answer to give quotes what its button says.',
  why: 'The word behind an answer, such as `in` or `stays`, stands on no button; a tired reader presses the wrong one.',
  wrong: 'No fitted plug: answer in.',
  right: 'No fitted plug: “In range”.',
  *find({ tree }) {
    for (const node of tree.nodes) {
      if (node.kind !== 'check') continue;
      for (const { key, text, part } of prosePlaces(node)) {
        if (part !== 'step') continue;
        for (const [said, words = ''] of text.matchAll(advice)) {
          if (!isAnswer(words.toLowerCase(), node)) continue;
          yield {
            key,
            message: `Unexpected "${said}" in \`${node.id}\`, expected the words of the button, in quotes.`,
            help: 'Write what its <Outcome> says, for example: No brick: “No change, or there is no brick”.',
          };
        }
      }
    }
  },
});

function isAnswer(words: string, check: Check): boolean {
  return pointers.includes(words) || wordsOfCheck(check).includes(words.replaceAll(' ', '-'));
}

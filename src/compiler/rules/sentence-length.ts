import { listParagraphs } from '#core/model/prose.ts';
import { defineTreeRule } from './rule.ts';
import { splitSentences } from './prose-places.ts';

const maximumWords = 30;

export const sentenceLength = defineTreeRule({
  id: 'sentence-length',
  group: 'language',
  says: `No sentence of a check is longer than ${maximumWords} words.`,
  why: 'At the bench a sentence is read with one eye, the other on the probe.',
  wrong:
    'Read the rail at the chip that is farthest from the regulator and look at the number on the meter until it has stood for the time that one long breath takes, twice over.',
  right: 'Read the rail at the farthest chip.',
  severity: 'warning',
  *find({ tree }) {
    for (const node of tree.nodes) {
      if (node.kind !== 'check' && node.kind !== 'path') continue;
      for (const [index, paragraph] of listParagraphs(node.prose).entries()) {
        for (const sentence of splitSentences(paragraph)) {
          const words = sentence.split(/\s+/).filter((word) => /\p{L}|\p{N}/u.test(word)).length;
          if (words <= maximumWords) continue;
          yield {
            key: `node/${node.id}/prose/${index}`,
            message: `Unexpected sentence of ${words} words ("${sentence.slice(0, 40)}…"), expected at most ${maximumWords}.`,
            help: 'Split it: one act a sentence.',
          };
        }
      }
    }
  },
});

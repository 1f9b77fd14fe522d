import { defineTreeRule } from './rule.ts';

const maximumWords = 30;

export const sentenceLength = defineTreeRule({
  id: 'sentence-length',
  says: `No sentence of a check is longer than ${maximumWords} words.`,
  severity: 'warning',
  *find({ tree }) {
    for (const node of tree.nodes) {
      if (node.kind !== 'check' && node.kind !== 'path') continue;
      for (const [index, paragraph] of node.prose.entries()) {
        for (const sentence of paragraph.split(/(?<=[.!?:;])\s+/)) {
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

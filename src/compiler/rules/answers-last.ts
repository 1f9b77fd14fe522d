import { listParagraphs } from '#core/model/prose.ts';
import { defineTreeRule } from './rule.ts';

export const answersLast = defineTreeRule({
  id: 'answers-last',
  group: 'safety',
  says: 'Nothing is told behind the first answer of a check.',
  why: 'Whoever has read the answer presses it: an instruction or a warning below the buttons comes too late.',
  wrong: '<Outcome when="clean" to="socket-worn" />\n\nSeat the chip again.',
  right: 'Seat the chip again.\n\n<Outcome when="clean" to="socket-worn" />',
  *find({ tree, positions }) {
    for (const node of tree.nodes) {
      if (node.kind !== 'check') continue;
      const answer = positions.find(`node/${node.id}/outcome/0`);
      if (answer === 'unavailable') continue;
      for (const index of listParagraphs(node.prose).keys()) {
        const key = `node/${node.id}/prose/${index}`;
        const place = positions.find(key);
        if (place === 'unavailable' || place.line < answer.line) continue;
        yield {
          key,
          message: `Unexpected text behind an answer of \`${node.id}\`, expected it before the first.`,
          help: 'Move it above the outcomes, or into `says` of one.',
        };
      }
    }
  },
});

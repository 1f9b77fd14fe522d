import { defineTreeRule } from './rule.ts';

export const startsWithCheck = defineTreeRule({
  id: 'starts-with-check',
  group: 'structure',
  says: 'A tree begins with a check, and holds at least two causes.',
  why: 'The reader comes with a symptom and must be asked something first; with one cause there is nothing to find.',
  wrong:
    '<HandOver id="first" title="Leave it" because="licensed">Leave it.</HandOver>\n\n<Check id="lamp" title="Does the lamp light?" minutes="1" power="off" sign="any-light">',
  right: '<Check id="lamp" title="Does the lamp light?" minutes="1" power="off" sign="any-light">',
  *find({ tree }) {
    const start = tree.nodes[0];
    if (start !== undefined && start.kind !== 'check') {
      yield {
        key: `node/${start.id}`,
        message: `Unexpected first node \`${start.id}\`, expected a check.`,
        help: 'Put the cheapest and likeliest check first.',
      };
    }
    if (tree.nodes.filter(({ kind }) => kind === 'cause').length < 2) {
      yield {
        key: 'front/title',
        message: 'Unexpected tree with fewer than two causes, expected a choice to make.',
        help: 'Add the other causes that show the same symptom.',
      };
    }
  },
});

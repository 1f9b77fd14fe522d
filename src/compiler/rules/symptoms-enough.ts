import { defineTreeRule } from './rule.ts';

const fewest = 3;

export const symptomsEnough = defineTreeRule({
  id: 'symptoms-enough',
  group: 'substance',
  says: 'A tree has at least three symptom phrases, in the words of a worried owner.',
  why: 'People describe one fault in many ways; the search finds the tree by these phrases first.',
  wrong: 'symptoms:\n  - five volt rail is low\n  - no five volts at all',
  right: 'symptoms:\n  - five volt rail is low\n  - no five volts at all\n  - lamp glows dim',
  *find({ tree }) {
    const count = tree.symptoms.length;
    if (count >= fewest) return;
    yield {
      key: 'front/symptoms',
      message: `Unexpected ${count} symptom ${count === 1 ? 'phrase' : 'phrases'}, expected at least ${fewest}.`,
      help: 'Write what an owner types into a phone: no part names, no diagnosis.',
    };
  },
});

import type { Rule } from './rule.ts';

export const symptomsOwned: Rule = {
  id: 'symptoms-owned',
  group: 'substance',
  says: 'Every symptom phrase belongs to one tree.',
  why: 'Search ranks by phrases; one that two trees own leads half of the readers to the wrong one.',
  wrong: '- lamp glows dim',
  right: '- chips run hot',
  severity: 'error',
  *find({ trees }) {
    const owners = new Map<string, { file: string; key: string }>();
    for (const { tree, file } of trees) {
      for (const [index, phrase] of tree.symptoms.entries()) {
        const words = phrase
          .toLowerCase()
          .replace(/[^\p{L}\p{N}]+/gu, ' ')
          .trim();
        const key = `front/symptoms/${index}`;
        const owner = owners.get(words);
        if (owner !== undefined) {
          yield {
            file,
            key,
            message: `Unexpected symptom "${phrase}", expected a phrase that no other tree has.`,
            help: 'Say what is different here.',
            other: { ...owner, says: 'the first one' },
          };
        }
        owners.set(words, { file, key });
      }
    }
  },
};

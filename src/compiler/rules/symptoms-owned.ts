import type { Rule } from './rule.ts';

export const symptomsOwned: Rule = {
  id: 'symptoms-owned',
  says: 'Every symptom phrase belongs to one tree, and the tree lies in the folder of its block.',
  severity: 'error',
  *find({ trees }) {
    const owners = new Map<string, { file: string; key: string }>();
    for (const { tree, file } of trees) {
      const folder = file.split('/').at(-2);
      if (folder !== tree.block) {
        yield {
          file,
          key: 'front/block',
          message: `Unexpected block \`${tree.block}\` in folder \`${folder ?? ''}\`, expected the two to be equal.`,
          help: 'Move the file, or mend the block.',
        };
      }
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

import { defineTreeRule } from './rule.ts';

export const blockFolder = defineTreeRule({
  id: 'block-folder',
  group: 'structure',
  says: 'A tree lies in the folder of its block, and no other tree has its name.',
  why: 'The address holds only the slug, and the next author looks for the file where its block says.',
  wrong: 'block: audio',
  right: 'block: power',
  *find({ tree, file, trees }) {
    const folder = file.split('/').at(-2);
    if (folder !== tree.block) {
      yield {
        key: 'front/block',
        message: `Unexpected block \`${tree.block}\` in folder \`${folder ?? ''}\`, expected the two to be equal.`,
        help: 'Move the file, or mend the block.',
      };
    }
    const first = trees.find((other) => other.tree.slug === tree.slug);
    if (first !== undefined && first.file !== file) {
      yield {
        key: 'front/title',
        message: `Unexpected second tree \`${tree.slug}\`, expected each slug once over all blocks.`,
        help: 'Rename the file: the slug is its name.',
        other: { file: first.file, key: 'front/title', says: 'the first one' },
      };
    }
  },
});

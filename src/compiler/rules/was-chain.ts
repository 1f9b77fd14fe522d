import type { FaultTree } from '#core/model/fault-tree.ts';
import type { Rule, RuleFinding, SoundTree } from './rule.ts';

export const wasChain: Rule = {
  id: 'was-chain',
  group: 'links',
  says: 'An earlier name in `was` belongs to one successor, and is nobody’s name today.',
  why: 'Two pages cannot answer one address. After a second renaming the earliest name moves along: was="first second".',
  wrong: 'was="lamp"',
  right: 'was="rail-old"',
  severity: 'error',
  *find({ trees }) {
    yield* findTreeClashes(trees);
    for (const { tree, file } of trees) yield* findNodeClashes(tree, file);
  },
};

function* findTreeClashes(trees: readonly SoundTree[]): Iterable<RuleFinding> {
  const owners = new Map(trees.map(({ tree, file }) => [tree.slug, { file, key: 'front/title' }]));
  for (const { tree, file } of trees) {
    for (const [index, old] of tree.was.entries()) {
      const key = `front/was/${index}`;
      const owner = owners.get(old);
      if (owner !== undefined) {
        yield {
          file,
          key,
          message: `Unexpected earlier slug \`${old}\`, expected one that no other tree has or had.`,
          help: 'Take it out here, or where it is claimed first.',
          other: { ...owner, says: 'the tree that answers there' },
        };
      }
      owners.set(old, { file, key });
    }
  }
}

function* findNodeClashes(tree: FaultTree, file: string): Iterable<RuleFinding> {
  const owners = new Map(tree.nodes.map(({ id }) => [id, { file, key: `node/${id}` }]));
  for (const { id, was } of tree.nodes) {
    for (const old of was) {
      const key = `node/${id}@was`;
      const owner = owners.get(old);
      if (owner !== undefined) {
        yield {
          file,
          key,
          message: `Unexpected earlier id \`${old}\` of \`${id}\`, expected one that no other node has or had.`,
          help: 'Take it out here, or where it is claimed first.',
          other: { ...owner, says: 'the node that answers there' },
        };
      }
      owners.set(old, { file, key });
    }
  }
}

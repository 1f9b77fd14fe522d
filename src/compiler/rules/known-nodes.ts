import { findNode, linksFrom } from '#core/model/node.ts';
import { suggestName } from '../nearest-name.ts';
import { fileSlugs } from './file-slugs.ts';
import { defineTreeRule } from './rule.ts';

export const knownNodes = defineTreeRule({
  id: 'known-nodes',
  group: 'structure',
  says: 'Every `to`, `fault`, `good`, `after`, `from`, `brings` and `shows` names a node that exists.',
  why: 'A button that leads to nothing leaves the reader at the bench without a next step.',
  wrong: '<Outcome when="no" to="fuse-opne" />',
  right: '<Outcome when="no" to="fuse-open" />',
  *find({ tree, library, files }) {
    const ids = tree.nodes.map(({ id }) => id);
    const checks = tree.nodes.filter(({ kind }) => kind === 'check' || kind === 'path').map(({ id }) => id);
    const causes = tree.nodes.filter(({ kind }) => kind !== 'check' && kind !== 'path').map(({ id }) => id);
    const missing = (name: string, key: string, known: readonly string[], expected: string) => ({
      key,
      message: `Unexpected \`${name}\`, expected ${expected} of this tree.`,
      help: `Name one that exists, or add it.${suggestName(name, known)}`,
    });
    for (const node of tree.nodes) {
      const key = `node/${node.id}`;
      for (const { to, part } of linksFrom(node)) {
        if (!ids.includes(to)) yield missing(to, `${key}${part}`, ids, 'a node');
      }
      if (node.kind === 'check' || node.kind === 'path') {
        for (const id of node.after) if (!checks.includes(id)) yield missing(id, `${key}@after`, checks, 'a check');
      }
      if (node.kind === 'path') {
        const stages = node.stages.map(({ id }) => id);
        for (const stage of node.stages) {
          for (const id of stage.from) {
            if (!stages.includes(id)) yield missing(id, `${key}/stage/${stage.id}@from`, stages, 'a stage');
          }
          if (ids.includes(stage.fault) && !causes.includes(stage.fault)) {
            yield missing(stage.fault, `${key}/stage/${stage.id}@fault`, causes, 'a cause or a jump');
          }
        }
      }
      if (node.kind === 'cause') {
        for (const id of node.brings) if (!causes.includes(id)) yield missing(id, `${key}@brings`, causes, 'a cause');
      }
      if (node.kind === 'elsewhere') {
        const other = library.trees.get(node.tree);
        const slugs = fileSlugs({ files }, 'trees');
        if (node.tree === tree.slug) {
          yield {
            key: `${key}@tree`,
            message: `Unexpected jump of \`${node.id}\` into its own tree, expected another one.`,
            help: 'Let an outcome lead to the node itself.',
          };
        }
        if (other === undefined && slugs.includes(node.tree)) continue;
        if (other === undefined) {
          yield {
            key: `${key}@tree`,
            message: `Unexpected tree \`${node.tree}\`, expected the slug of a tree.`,
            help: `Where no tree is written yet, end in a cause or a hand-over that stands by itself.${suggestName(node.tree, slugs)}`,
          };
        } else if (node.node !== undefined && findNode(other, node.node) === undefined) {
          const others = other.nodes.map(({ id }) => id);
          yield {
            key: `${key}@node`,
            message: `Unexpected node \`${node.node}\`, expected a node of ${node.tree}.`,
            help: `Name one that exists, or leave it out.${suggestName(node.node, others)}`,
          };
        }
      }
    }
  },
});

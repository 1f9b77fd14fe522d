import { reachableFrom } from '#core/model/links.ts';
import { defineTreeRule } from './rule.ts';

export const reachableNodes = defineTreeRule({
  id: 'reachable-nodes',
  says: 'Every node can be reached from the first one.',
  *find({ tree }) {
    const start = tree.nodes[0];
    if (start === undefined) return;
    const reached = reachableFrom(tree, start.id);
    for (const { id } of tree.nodes) {
      if (reached.has(id)) continue;
      yield {
        key: `node/${id}@id`,
        message: `Unexpected node \`${id}\` that no outcome leads to, expected a way from \`${start.id}\`.`,
        help: 'Let an outcome lead to it, or remove it.',
      };
    }
  },
});

import { reachableFrom } from '#core/model/node.ts';
import { defineTreeRule } from './rule.ts';

export const reachableNodes = defineTreeRule({
  id: 'reachable-nodes',
  group: 'structure',
  says: 'Every node can be reached from the first one.',
  why: 'A node that nothing leads to is never read, and what its author knew is lost.',
  wrong: '<Outcome when="high" to="leave-it" />',
  right: '<Outcome when="high" to="other-rail" />',
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

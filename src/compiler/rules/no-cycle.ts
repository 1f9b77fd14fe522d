import { findNode, linksFrom } from '#core/model/node.ts';
import type { FaultTree } from '#core/model/fault-tree.ts';
import { defineTreeRule } from './rule.ts';

export const noCycle = defineTreeRule({
  id: 'no-cycle',
  group: 'structure',
  says: 'No answer leads back to a check that was done before.',
  why: 'A reader sent back to a check already done goes round until the patience is gone, and no plan can be computed.',
  wrong: 'good="lamp"',
  right: 'good="socket-worn"',
  *find({ tree }) {
    const back = findBackLink(tree);
    if (back === undefined) return;
    yield {
      key: `node/${back.from}${back.part}`,
      message: `Unexpected way back from \`${back.from}\` to \`${back.to}\`, expected answers to lead onward only.`,
      help: 'Lead to a later check, or to a cause. A reading worth repeating is repeated on its own page.',
    };
  },
});

interface BackLink {
  readonly from: string;
  readonly to: string;
  readonly part: string;
}

/** Depth-first walk with its own stack, so that a tree of any depth is safe. */
function findBackLink(tree: FaultTree): BackLink | undefined {
  const state = new Map<string, 'open' | 'done'>();
  for (const { id: root } of tree.nodes) {
    if (state.has(root)) continue;
    const stack = [root];
    while (stack.length > 0) {
      const id = stack.at(-1) ?? root;
      const node = findNode(tree, id);
      if (state.get(id) === undefined) state.set(id, 'open');
      const links = node === undefined ? [] : linksFrom(node);
      const back = links.find(({ to }) => state.get(to) === 'open');
      if (back !== undefined) return back;
      const next = links.find(({ to }) => state.get(to) === undefined && findNode(tree, to) !== undefined);
      if (next === undefined) {
        state.set(id, 'done');
        stack.pop();
      } else {
        stack.push(next.to);
      }
    }
  }
  return undefined;
}

import type { TreeNode } from '#core/model/fault-tree.ts';
import { findNode, linksFrom, wordsOfCheck } from '#core/model/node.ts';
import { defineTreeRule } from './rule.ts';
import { saidRowsOf } from './said-rows.ts';

export const checkSeparates = defineTreeRule({
  id: 'check-separates',
  group: 'substance',
  says: 'Every check comes out otherwise for at least two ends. A look that only asks what kind of unit it is may come out alike.',
  why: 'A check that comes out the same whatever is wrong costs its minutes and tells nothing.',
  wrong: '<Outcome when="dark" to="socket-worn" />\n<Outcome when="clean" to="socket-worn" />',
  right: '<Outcome when="dark" to="leave-it" />\n<Outcome when="clean" to="socket-worn" />',
  severity: 'warning',
  *find({ tree, library }) {
    const { checks, rows } = saidRowsOf(tree, library);
    for (const [place, id] of checks.entries()) {
      const [nodeId = '', stage] = id.split('/');
      const node = findNode(tree, nodeId);
      if (node === undefined || isExempt(node) || separates(rows[place] ?? [])) continue;
      yield {
        key: stage === undefined ? `node/${nodeId}` : `node/${nodeId}/stage/${stage}`,
        message: `Unexpected check \`${id}\` that comes out alike for every end it speaks of, expected one that tells some apart.`,
        help: 'Let its answers lead to different causes, say in `shows` what causes make it read, or take it out. A hand-over for want of an instrument counts as no end.',
      };
    }
  },
});

/** Too few answers are another rule’s matter. A look without instrument or target whose answers lead different ways: it chooses the procedure, not the cause. */
function isExempt(node: TreeNode): boolean {
  if (node.kind === 'check' && wordsOfCheck(node).length < 2) return true;
  if (node.kind !== 'check' || node.target !== undefined || node.instruments.some((family) => family !== 'eyes')) {
    return false;
  }
  return new Set(linksFrom(node).map(({ to }) => to)).size > 1;
}

function separates(row: readonly (readonly number[] | undefined)[]): boolean {
  const said = row.filter((outcomes) => outcomes !== undefined);
  const [first] = said;
  return said.some((outcomes) => outcomes.some((probability, outcome) => probability !== first?.[outcome]));
}

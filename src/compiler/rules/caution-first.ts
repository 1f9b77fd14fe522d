import type { TreeNode } from '#core/model/fault-tree.ts';
import type { Positions } from '../position.ts';
import { defineTreeRule } from './rule.ts';

export const cautionFirst = defineTreeRule({
  id: 'caution-first',
  group: 'safety',
  says: 'A caution stands before the instruction it concerns.',
  why: 'People do what they read first. A caution below the step is read with the fingers already in.',
  wrong: 'Read the rail at the farthest chip.\n\n<Caution use="static" />',
  right: '<Caution use="static" />\n\nRead the rail at the farthest chip.',
  *find({ tree, positions }) {
    for (const node of tree.nodes) {
      const first = firstLine(partsOf(node), positions);
      for (const index of node.cautions.keys()) {
        const place = positions.find(`node/${node.id}/caution/${index}`);
        if (place === 'unavailable' || first === undefined || place.line < first) continue;
        yield {
          key: `node/${node.id}/caution/${index}`,
          message: `Unexpected caution after the text of \`${node.id}\`, expected it before.`,
          help: 'Move it to the top of the node: people do what they read first.',
        };
      }
    }
  },
});

/** Keys of everything in a node that tells what to do. */
function partsOf(node: TreeNode): readonly string[] {
  const key = `node/${node.id}`;
  const own = node.prose.length === 0 ? [] : [`${key}/prose/0`];
  if (node.kind === 'path') return [...own, ...node.stages.map(({ id }) => `${key}/stage/${id}`)];
  if (node.kind !== 'cause') return own;
  const parts = (['confirm', 'repair', 'prove'] as const).filter((part) => node[part] !== undefined);
  return [...own, ...parts.map((part) => `${key}/${part}`)];
}

function firstLine(keys: readonly string[], positions: Positions): number | undefined {
  const lines = keys.flatMap((key) => {
    const place = positions.find(key);
    return place === 'unavailable' ? [] : [place.line];
  });
  return lines.length === 0 ? undefined : Math.min(...lines);
}

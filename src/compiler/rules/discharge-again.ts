import type { FaultTree, TreeNode } from '#core/model/fault-tree.ts';
import { findNode, linksFrom, needsOf } from '#core/model/node.ts';
import { defineTreeRule } from './rule.ts';

export const dischargeAgain = defineTreeRule({
  id: 'discharge-again',
  group: 'safety',
  says: 'Where the unit may store charge, hands go in after a powered step only with the set-up `discharged`.',
  why: 'A capacitor proved empty is full again after every switch-on, and the next page asks for a hand inside.',
  wrong: 'power="off" needs="case-open"',
  right: 'power="off" needs="case-open discharged"',
  *find({ tree, library }) {
    const setups = tree.hazards
      .map((hazard) => library.hazards.get(hazard)?.setup)
      .filter((setup) => setup !== undefined);
    if (setups.length === 0) return;
    for (const [id, poweredAt] of findCharged(tree, setups)) {
      const node = findNode(tree, id);
      if (node === undefined || !putsHandsIn(node)) continue;
      const needs = needsOf(node);
      const missing = [...new Set(setups)].filter((setup) => !needs.includes(setup));
      if (missing.length === 0) continue;
      yield {
        key: node.kind === 'cause' ? `node/${id}/repair@needs` : `node/${id}@needs`,
        message: `Unexpected hands inside at \`${id}\` after power was on at \`${poweredAt}\`, expected the set-up \`${missing.join(' ')}\`.`,
        help: `Add it to needs="…": what was discharged is charged again at every power-on.`,
      };
    }
  },
});

/** Steps without power and repairs that open the case or take the board out. */
function putsHandsIn(node: TreeNode): boolean {
  const isUnpowered =
    node.kind === 'cause' || ((node.kind === 'check' || node.kind === 'path') && node.power === 'off');
  return isUnpowered && needsOf(node).some((setup) => setup === 'case-open' || setup === 'board-out');
}

/** Nodes that some road reaches with the unit charged: the powered step before, and no discharge between. Cost O(links). */
function findCharged(tree: FaultTree, setups: readonly string[]): ReadonlyMap<string, string> {
  const charged = new Map<string, string>();
  const open: { readonly id: string; readonly poweredAt: string }[] = tree.nodes.flatMap((node) =>
    (node.kind === 'check' || node.kind === 'path') && node.power === 'on'
      ? linksFrom(node).map(({ to }) => ({ id: to, poweredAt: node.id }))
      : [],
  );
  for (let next = open.shift(); next !== undefined; next = open.shift()) {
    const { id, poweredAt } = next;
    const node = findNode(tree, id);
    if (node === undefined || charged.has(id)) continue;
    charged.set(id, poweredAt);
    const isStep = node.kind === 'check' || node.kind === 'path';
    const isEmptied = isStep && setups.every((setup) => node.needs.includes(setup));
    if (isStep && node.power === 'off' && !isEmptied)
      open.push(...linksFrom(node).map(({ to }) => ({ id: to, poweredAt })));
  }
  return charged;
}

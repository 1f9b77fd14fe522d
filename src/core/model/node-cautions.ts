import type { TreeNode } from './fault-tree.ts';
import type { Caution, References, Severity } from './library.ts';

const order: Readonly<Record<Severity, number>> = { stop: 0, danger: 1, care: 2 };

/**
 * Cautions that a page must show before a node's instruction, the gravest first:
 * those the author placed, those of its set-ups, and `mains` for every powered step,
 * because any link may lead straight to it and the unit may hold its own supply.
 */
export function cautionsOf(node: TreeNode, references: References): readonly Caution[] {
  const isPowered = (node.kind === 'check' || node.kind === 'path') && node.power === 'on';
  const needs = 'needs' in node ? node.needs : node.kind === 'cause' ? (node.repair?.needs ?? []) : [];
  const slugs = new Set([
    ...(isPowered ? ['mains'] : []),
    ...node.cautions,
    ...needs.flatMap((setup) => references.setups.get(setup)?.cautions ?? []),
  ]);
  return [...slugs]
    .map((slug) => references.cautions.get(slug))
    .filter((caution) => caution !== undefined)
    .toSorted((a, b) => order[a.severity] - order[b.severity]);
}

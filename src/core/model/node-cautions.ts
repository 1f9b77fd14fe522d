import type { Cause, TreeNode } from './fault-tree.ts';
import type { Caution, References, Severity } from './library.ts';
import { liveReadings } from './live-readings.ts';
import { needsOf } from './needs-of.ts';

const order: Readonly<Record<Severity, number>> = { stop: 0, danger: 1, care: 2 };

/**
 * Cautions that a page must show before a node's instruction, the gravest first:
 * those the author placed, those of its set-ups, and `mains` for every powered step,
 * because any link may lead straight to it and the unit may hold its own supply.
 * A cause that is confirmed or proved by a reading with power on is such a step too,
 * and where that reading may be taken with a scope it carries `scope-ground`.
 */
export function cautionsOf(node: TreeNode, references: References): readonly Caution[] {
  const isPowered = (node.kind === 'check' || node.kind === 'path') && node.power === 'on';
  const slugs = new Set([
    ...(isPowered ? ['mains'] : []),
    ...(node.kind === 'cause' ? cautionsOfReadings(node, references) : []),
    ...node.cautions,
    ...needsOf(node).flatMap((setup) => references.setups.get(setup)?.cautions ?? []),
  ]);
  return [...slugs]
    .map((slug) => references.cautions.get(slug))
    .filter((caution) => caution !== undefined)
    .toSorted((a, b) => order[a.severity] - order[b.severity]);
}

function cautionsOfReadings(cause: Cause, references: References): readonly string[] {
  return liveReadings(cause, references).flatMap(({ instruments }) =>
    instruments.includes('oscilloscope') ? ['mains', 'scope-ground'] : ['mains'],
  );
}

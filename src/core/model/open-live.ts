import type { TreeNode } from './fault-tree.ts';
import type { References } from './library.ts';
import { liveReadings } from './live-readings.ts';
import { needsOf } from './needs-of.ts';

/** Set-ups that cannot be made with the case closed. */
const opening: ReadonlySet<string> = new Set(['case-open', 'board-out', 'board-disconnected', 'chips-out']);

/** Whether hands come near an open unit with power on: a powered step, or a cause with readings taken so, whose set-ups open the case. */
export function isOpenLive(node: TreeNode, references: Pick<References, 'targets'>): boolean {
  const isLive =
    node.kind === 'cause'
      ? liveReadings(node, references).length > 0
      : (node.kind === 'check' || node.kind === 'path') && node.power === 'on';
  return isLive && needsOf(node).some((setup) => opening.has(setup));
}

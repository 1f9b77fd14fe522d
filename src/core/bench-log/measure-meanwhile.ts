import type { Check, FaultTree } from '../model/fault-tree.ts';

/** Checks that can be done while a part is on its way. */
export interface Meanwhile {
  /** With the power off: nothing that was taken out is missed. */
  readonly unpowered: readonly Check[];
  /** Only if nothing has been taken out of the unit. */
  readonly powered: readonly Check[];
}

/** The checks of a tree that are not answered yet and leave nothing behind, the shorter first. `answered` holds ids of checks. */
export function measureMeanwhile(tree: FaultTree, answered: ReadonlySet<string>): Meanwhile {
  const open = tree.nodes
    .filter((node): node is Check => node.kind === 'check')
    .filter(({ id, leaves, swap, after }) => {
      const isReady = after.every((check) => answered.has(check));
      return !answered.has(id) && leaves === 'nothing' && swap === undefined && isReady;
    })
    .sort((one, other) => one.minutes + one.waitMinutes - other.minutes - other.waitMinutes);
  return {
    unpowered: open.filter(({ power }) => power === 'off'),
    powered: open.filter(({ power }) => power === 'on'),
  };
}

import type { Check, FaultTree } from '../model/fault-tree.ts';
import { linksTo } from '../model/links.ts';
import type { Answer } from '../share/link-state.ts';
import type { Job } from './job.ts';

/**
 * The readings of a job that still hold in another tree, as answers of that tree: same target at the same point, same power, same
 * set-ups, and no repair since that can have changed them. A repair can have changed every check that says something about its
 * cause: one on a road to it, or one it names in `shows`; and, where its tree is not among `trees`, every reading taken before it.
 */
export function carryReadings(job: Job, trees: ReadonlyMap<string, FaultTree>, into: FaultTree): readonly Answer[] {
  const checks = into.nodes.filter((node) => node.kind === 'check');
  return job.answers.flatMap((answer) => {
    const tree = trees.get(answer.tree);
    if (tree === undefined || answer.tree === into.slug || answer.stage !== undefined) return [];
    const from = tree.nodes.find((node) => node.kind === 'check' && node.id === answer.node);
    if (from?.kind !== 'check' || from.target === undefined) return [];
    const repairs = job.repairs.filter(({ event }) => event.at >= answer.at);
    if (repairs.some(({ event }) => canChange(trees.get(event.tree), event.tree === tree.slug, event.cause, from))) {
      return [];
    }
    const to = checks.find((check) => isSameReading(from, check));
    return to === undefined ? [] : [{ tree: undefined, node: to.id, stage: undefined, value: answer.value }];
  });
}

/** Checks of the tree that say something about a cause. */
export function checksAbout(tree: FaultTree, cause: string): ReadonlySet<string> {
  const about = new Set<string>();
  const open = [cause];
  while (open.length > 0) {
    const id = open.pop() ?? '';
    for (const { from } of linksTo(tree, id)) {
      if (about.has(from)) continue;
      about.add(from);
      open.push(from);
    }
  }
  const node = tree.nodes.find(({ id }) => id === cause);
  if (node?.kind === 'cause') for (const check of Object.keys(node.shows)) about.add(check);
  return about;
}

/** In a tree that is not at hand, or in another one than the reading's, nothing says what the repair leaves alone. */
function canChange(tree: FaultTree | undefined, isOfReading: boolean, cause: string, check: Check): boolean {
  return tree === undefined || !isOfReading || checksAbout(tree, cause).has(check.id);
}

function isSameReading(one: Check, other: Check): boolean {
  return (
    other.target !== undefined &&
    one.target?.target === other.target.target &&
    one.target.point === other.target.point &&
    one.power === other.power &&
    [...one.needs].sort().join(' ') === [...other.needs].sort().join(' ')
  );
}

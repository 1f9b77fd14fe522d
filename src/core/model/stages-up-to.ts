import type { SignalPath } from './fault-tree.ts';

/** A stage and every stage that feeds it. */
export function stagesUpTo(path: SignalPath, id: string): ReadonlySet<string> {
  const found = new Set<string>();
  const open = [id];
  while (open.length > 0) {
    const next = open.pop();
    const stage = path.stages.find((candidate) => candidate.id === next);
    if (next === undefined || stage === undefined || found.has(next)) continue;
    found.add(next);
    open.push(...stage.from);
  }
  return found;
}

import type { LinkNames } from './link-state.ts';
import type { TreeMap } from './tree-map.ts';

/** Names that may stand in a fragment on a page of this tree; earlier ids lead to today's, and today's win. */
export function namesOf(map: TreeMap): LinkNames {
  const nodes = new Map<string, { id: string; kind: string }>();
  for (const { id, kind, was = [] } of map.nodes) for (const name of was) nodes.set(name, { id, kind });
  for (const { id, kind } of map.nodes) nodes.set(id, { id, kind });
  return {
    nodes,
    trees: new Set(map.trees),
    units: new Set(map.units),
    own: new Set([map.slug, ...(map.was ?? [])]),
    renamed: new Map(Object.entries(map.renamed ?? {})),
    movedFrom: map.movedFrom,
  };
}

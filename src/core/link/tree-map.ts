import type { NodeWays } from '../answer/lead.ts';
import type { NodeKind } from '../model/fault-tree.ts';
import type { LinkNames } from './fragment.ts';

/** What a page's script needs to know of its tree: one small file for all pages of the tree. */
export interface TreeMap {
  readonly slug: string;
  readonly title: string;
  readonly start: string;
  readonly nodes: readonly MappedNode[];
  /** Earlier slugs of this tree. */
  readonly was?: readonly string[];
  readonly trees: readonly string[];
  /** Trees that were renamed: earlier slug and today's. */
  readonly renamed?: Readonly<Record<string, string>>;
  /** Slug in the page's address, where it is that of another tree which the node has left since. */
  readonly movedFrom?: string;
  readonly units: readonly NamedUnit[];
}

/** A unit that has a file. */
export interface NamedUnit {
  readonly slug: string;
  readonly title: string;
  readonly isInvented?: boolean;
}

export interface MappedNode extends NodeWays {
  readonly kind: NodeKind;
  readonly title: string;
  readonly was?: readonly string[];
  /** A hand-over for safety: an answer that leads here holds on every page of the tree. */
  readonly isFinal?: true;
}

/** The map as the page at an address of the tree `addressed` has it: its tree may have been renamed, or its node moved here. */
export function mapAt(map: TreeMap, addressed: string): TreeMap {
  return addressed === map.slug || map.was?.includes(addressed) === true ? map : { ...map, movedFrom: addressed };
}

/** Names that may stand in a fragment on a page of this tree; earlier ids lead to today's, and today's win. */
export function namesOf(map: TreeMap): LinkNames {
  const nodes = new Map<string, { id: string; kind: string }>();
  for (const { id, kind, was = [] } of map.nodes) for (const name of was) nodes.set(name, { id, kind });
  for (const { id, kind } of map.nodes) nodes.set(id, { id, kind });
  return {
    nodes,
    trees: new Set(map.trees),
    units: new Set(map.units.map(({ slug }) => slug)),
    own: new Set([map.slug, ...(map.was ?? [])]),
    renamed: new Map(Object.entries(map.renamed ?? {})),
    movedFrom: map.movedFrom,
  };
}

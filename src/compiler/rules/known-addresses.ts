import type { FaultTree } from '#core/model/fault-tree.ts';
import { addressOf, guidePages } from '#core/link/address.ts';
import { fileSlugs } from './file-slugs.ts';
import type { RuleContext } from './rule.ts';

/** Addresses below `/` that the content answers, and those that it may answer once broken files are mended. */
export interface KnownAddresses {
  readonly answered: ReadonlySet<string>;
  /** Beginnings of addresses of files that could not be read: nothing can be said about what lies there. */
  readonly unread: readonly string[];
}

/** Every address that content makes: trees, their nodes, targets, cautions and units, earlier names included. */
export function knownAddresses({ library, files }: Pick<RuleContext, 'library' | 'files'>): KnownAddresses {
  const answered = new Set<string>(
    (['home', 'targets', 'cautions', 'units', 'hand-over', 'data', 'draft', 'log', 'guide'] as const).map((kind) =>
      addressOf({ kind }, '/'),
    ),
  );
  for (const page of guidePages) answered.add(addressOf({ kind: 'guide', page }, '/'));
  for (const tree of library.trees.values()) for (const address of addressesOfTree(tree)) answered.add(address);
  const unread: string[] = [];
  for (const slug of fileSlugs({ files }, 'trees')) {
    if (!library.trees.has(slug)) unread.push(addressOf({ kind: 'tree', tree: slug }, '/'));
  }
  for (const kind of ['target', 'caution', 'unit'] as const) {
    for (const slug of fileSlugs({ files }, `${kind}s`)) answered.add(addressOf({ kind, slug }, '/'));
  }
  return { answered, unread };
}

function addressesOfTree(tree: FaultTree): readonly string[] {
  return [tree.slug, ...tree.was].flatMap((slug) => [
    addressOf({ kind: 'tree', tree: slug }, '/'),
    ...tree.nodes.flatMap(({ id, was }) => [id, ...was].map((name) => addressOfName(slug, name))),
  ]);
}

/** A name within the tree, or `tree/id` of the tree a node came from. */
function addressOfName(slug: string, name: string): string {
  const [first = '', second] = name.split('/');
  return addressOf(
    { kind: 'node', ...(second === undefined ? { tree: slug, node: first } : { tree: first, node: second }) },
    '/',
  );
}

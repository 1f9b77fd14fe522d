import { addressOf, guidePages, singlePages } from '#core/link/address.ts';
import type { FaultTree } from '#core/model/fault-tree.ts';
import { suggestName } from '../nearest-name.ts';
import { fileSlugs } from './names.ts';
import type { Rule, RuleContext, RuleFinding, SoundTree } from './rule.ts';

export const addressRules: readonly Rule[] = [
  {
    id: 'known-links',
    group: 'links',
    says: 'A link in prose leads to a page that exists.',
    why: 'A dead link in the middle of a step leaves the reader with a blank screen and a probe in the hand.',
    wrong: 'See [the rail](/targets/rail-5/) first.',
    right: 'See [the rail](/targets/rail-5v/) first.',
    *findInAll({ library, files, positionsOf }) {
      const { answered, unread } = knownAddresses({ library, files });
      for (const [file, { names }] of positionsOf) {
        for (const { kind, name, position = 'unavailable' } of names) {
          if (kind !== 'page') continue;
          const [page = ''] = name.split('#');
          if (answered.has(page) || unread.some((beginning) => page.startsWith(beginning))) continue;
          yield {
            file,
            key: '',
            position,
            message: `Unexpected link to \`${page.slice(0, 100)}\`, expected a page of this site.`,
            help: `Name one that exists; addresses end in a slash.${suggestName(page, answered)}`,
          };
        }
      }
    },
  },
  {
    id: 'address-lives',
    group: 'links',
    says: 'Every address that was ever published still answers.',
    why: 'Somebody’s thread links there. A forum post from years ago is how most readers will arrive.',
    wrong: '<Check id="rail" title="Is the rail in range?" minutes="3" power="on" instrument="multimeter">',
    right:
      '<Check id="rail" title="Is the rail in range?" minutes="3" power="on" instrument="multimeter" was="rail-old">',
    *findInAll({ library, files }) {
      const published = files.find(({ file }) => file === list);
      if (published === undefined) return;
      const { answered, unread } = knownAddresses({ library, files });
      for (const [index, written] of published.text.split(/\r?\n/).entries()) {
        const address = written.trim();
        if (!fromContent.test(address) || answered.has(address)) continue;
        if (unread.some((beginning) => address.startsWith(beginning))) continue;
        const [, kind = '', slug = '', node] = address.split('/');
        const isNode = kind === 'trees' && node !== undefined && node !== '';
        yield {
          file: list,
          key: '',
          position: { line: index + 1, column: 1 },
          message: `Unexpected end of the published address \`${address}\`, expected a page that answers there.`,
          help: `${isNode ? `Give its successor in tree \`${slug}\` was="${node}"` : kind === 'trees' ? `Give the tree that replaces it \`was: [${slug}]\`` : 'Put the file back under its name'}; do not take the line out.${suggestName(address, answered)}`,
        };
      }
    },
  },
  {
    id: 'was-chain',
    group: 'links',
    says: 'An earlier name in `was` belongs to one successor, and is nobody’s name today.',
    why: 'Two pages cannot answer one address. After a second renaming the earliest name moves along: was="first second".',
    wrong: 'was="lamp"',
    right: 'was="rail-old"',
    *findInAll({ trees }) {
      yield* findTreeClashes(trees);
      for (const { tree, file } of trees) yield* findNodeClashes(tree, file);
    },
  },
];

const list = 'content/addresses.txt';
/** Addresses that come from content; those of the site’s own pages are not the content’s to keep. */
const fromContent = /^\/(trees|targets|cautions|units)\/./;

function* findTreeClashes(trees: readonly SoundTree[]): Iterable<RuleFinding> {
  const owners = new Map(trees.map(({ tree, file }) => [tree.slug, { file, key: 'front/title' }]));
  for (const { tree, file } of trees) {
    for (const [index, old] of tree.was.entries()) {
      const key = `front/was/${index}`;
      const owner = owners.get(old);
      if (owner !== undefined) {
        yield {
          file,
          key,
          message: `Unexpected earlier slug \`${old}\`, expected one that no other tree has or had.`,
          help: 'Take it out here, or where it is claimed first.',
          other: { ...owner, says: 'the tree that answers there' },
        };
      }
      owners.set(old, { file, key });
    }
  }
}

function* findNodeClashes(tree: FaultTree, file: string): Iterable<RuleFinding> {
  const owners = new Map(tree.nodes.map(({ id }) => [id, { file, key: `node/${id}` }]));
  for (const { id, was } of tree.nodes) {
    for (const old of was) {
      const key = `node/${id}@was`;
      const owner = owners.get(old);
      if (owner !== undefined) {
        yield {
          file,
          key,
          message: `Unexpected earlier id \`${old}\` of \`${id}\`, expected one that no other node has or had.`,
          help: 'Take it out here, or where it is claimed first.',
          other: { ...owner, says: 'the node that answers there' },
        };
      }
      owners.set(old, { file, key });
    }
  }
}

/** Addresses below `/` that the content answers, and those that it may answer once broken files are mended. */
interface KnownAddresses {
  readonly answered: ReadonlySet<string>;
  /** Beginnings of addresses of files that could not be read: nothing can be said about what lies there. */
  readonly unread: readonly string[];
}

/** Every address that content makes: trees, their nodes, targets, cautions and units, earlier names included. */
function knownAddresses({ library, files }: Pick<RuleContext, 'library' | 'files'>): KnownAddresses {
  const answered = new Set<string>(singlePages.map((kind) => addressOf({ kind }, '/')));
  for (const page of guidePages) answered.add(addressOf({ kind: 'guide-page', page }, '/'));
  for (const tree of library.trees.values()) for (const address of addressesOfTree(tree)) answered.add(address);
  const unread: string[] = [];
  for (const slug of fileSlugs({ files }, 'trees')) {
    if (!library.trees.has(slug)) unread.push(addressOf({ kind: 'tree', tree: slug }, '/'));
  }
  for (const kind of ['target', 'caution', 'unit', 'part'] as const) {
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

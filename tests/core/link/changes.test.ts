import { describe, expect, it } from 'vitest';
import { nodePages, treePages } from '#build/addresses.ts';
import { compileContent } from '#compiler/compile-content.ts';
import { findChanges } from '#core/link/changes.ts';
import { parseLinkState, printLinkState } from '#core/link/fragment.ts';
import { makeTreeMap } from '#core/link/make-tree-map.ts';
import { mapAt, namesOf, type TreeMap } from '#core/link/tree-map.ts';
import type { FaultTree } from '#core/model/fault-tree.ts';
import { makeCause, makeCheck, makePath, makeTree } from '../../arbitraries/make-tree.ts';
import { makeContent } from '../../compiler/make-content.ts';

// A link that was made on the first edition, and the same tree after years of editing.
const link = 'lamp=dim&rail=4.71V&follow/input=bad&did=fuse&ask=rail';
const edited = makeTree(
  [
    makeCheck('light', { yes: 'rail', no: 'fuse-open' }, { was: ['lamp'], title: 'Does the lamp light at all?' }),
    makeCheck('rail', { low: 'supply', in: 'worn' }),
    makePath('supply', { entry: 'fuse-open', chip: 'worn' }, 'worn', { was: ['follow'] }),
    makeCause('fuse-open', { was: ['fuse'] }),
    makeCause('worn'),
  ],
  { slug: 'psu-dead', was: ['dead-supply'] },
);

function mapOf(tree: FaultTree, addressed = tree.slug): TreeMap {
  return mapAt(makeTreeMap(tree, ['psu-dead', 'clock-dead'], [], [edited]), addressed);
}

function read(fragment: string, map: TreeMap) {
  const parsed = parseLinkState(fragment, namesOf(map));
  return { ...parsed, changes: findChanges(fragment, map, parsed.state) };
}

describe('an old link on an edited tree', () => {
  const { state, problems, changes } = read(`#${link}`, mapOf(edited));

  it('means the same by today’s names, and loses nothing', () => {
    expect(problems).toEqual([]);
    expect(printLinkState(state)).toBe('light=dim&rail=4.71V&supply/input=bad&did=fuse-open&ask=rail');
  });

  it('says what has another name now, and which answers are no answers any more', () => {
    expect(changes).toEqual([
      '“lamp” is called “Does the lamp light at all?” now; the link still means the same.',
      '“follow” is called “Follow supply” now; the link still means the same.',
      '“fuse” is called “The part fuse-open failed” now; the link still means the same.',
      '“Dim” is not an answer to “Does the lamp light at all?” any more; it is kept as text and decides nothing.',
      '“Input” is not an answer to “Follow supply” any more; it is kept as text and decides nothing.',
    ]);
  });

  it('says nothing of a link that is as new', () => {
    expect(read('light=yes&rail=sometimes&supply/stage-0=bad&did=fuse-open', mapOf(edited)).changes).toEqual([]);
    expect(read('supply=good&rail=OL', mapOf(edited)).changes).toEqual([]);
  });
});

describe('evidence from a tree that was renamed', () => {
  it('comes home under its old name, and is said', () => {
    const { state, problems, changes } = read('dead-supply/rail=low', mapOf(edited));

    expect(problems).toEqual([]);
    expect(printLinkState(state)).toBe('rail=low');
    expect(changes).toEqual(['The tree “dead-supply” is called “psu-dead” now; the link still means the same.']);
  });

  it('is carried on under the new name in another tree', () => {
    const other = makeTree([makeCheck('beat', { yes: 'worn', no: 'worn' }), makeCause('worn')], { slug: 'clock-dead' });
    const { state, problems } = read('dead-supply/rail=low', mapOf(other));

    expect(problems).toEqual([]);
    expect(printLinkState(state)).toBe('psu-dead/rail=low');
  });
});

describe('a tree that was split', () => {
  const fresh = makeTree(
    [makeCheck('beat', { yes: 'worn', no: 'worn' }, { was: ['psu-dead/pulse'] }), makeCause('worn')],
    { slug: 'clock-dead' },
  );

  it('answers the old address with the node in its new tree', () => {
    const library = { trees: new Map([edited, fresh].map((tree) => [tree.slug, tree] as const)) };
    const page = nodePages(library).find(({ treeSlug, nodeId }) => treeSlug === 'psu-dead' && nodeId === 'pulse');

    expect(page?.tree.slug).toBe('clock-dead');
    expect(page?.node).toBe('beat');
  });

  it('takes bare names of the old tree for evidence from there, and the node’s own old name for itself', () => {
    const { state, problems } = read('rail=low&pulse=yes', mapOf(fresh, 'psu-dead'));

    expect(problems).toEqual([]);
    expect(printLinkState(state)).toBe('psu-dead/rail=low&beat=yes');
  });

  it('knows evidence about the node that moved in, wherever the link says it stood', () => {
    expect(printLinkState(read('psu-dead/pulse=no', mapOf(fresh)).state)).toBe('beat=no');
  });
});

describe('addresses of renamed nodes and trees', () => {
  const taken = makeTree([makeCheck('lamp', { yes: 'a', no: 'b' }, { was: ['a'] }), makeCause('a'), makeCause('b')], {
    slug: 'new',
    was: ['old', 'psu-dead'],
  });
  const library = { trees: new Map([taken, edited].map((tree) => [tree.slug, tree] as const)) };

  it('are all built, each once, and a name of today beats one of yesterday', () => {
    const pages = nodePages(library);
    const addresses = pages.map(({ treeSlug, nodeId }) => `${treeSlug}/${nodeId}`);

    expect(new Set(addresses).size).toBe(addresses.length);
    expect(addresses).toEqual(expect.arrayContaining(['psu-dead/lamp', 'dead-supply/fuse', 'old/lamp', 'new/a']));
    expect(pages.find(({ treeSlug, nodeId }) => treeSlug === 'new' && nodeId === 'a')?.node).toBe('a');
    expect(treePages(library).find(({ treeSlug }) => treeSlug === 'psu-dead')?.tree.slug).toBe('psu-dead');
  });
});

describe('was="…" in a tree', () => {
  const from = 'was="rail-old"';

  function rulesBroken(was: string): readonly string[] {
    return compileContent(makeContent([{ from, to: `was="${was}"` }])).problems.map(({ rule }) => rule);
  }

  it.each(['rail-old', 'other-tree/rail-old', 'rail-old other-tree/x'])('takes %s', (was) => {
    expect(rulesBroken(was)).not.toContain('word-shape');
  });

  it.each(['a/b/c', '/rail', 'Rail', '../rail', 'rail/'])('refuses %s', (was) => {
    expect(rulesBroken(was)).toContain('word-shape');
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { loadLibrary } from '#build/library.ts';
import { makeTreeMap } from '#core/link/make-tree-map.ts';
import {
  findNode,
  isBeforeSwitchMode,
  isHandOverForSafety,
  isOpenLive,
  linksFrom,
  linksTo,
  reachableFrom,
} from '#core/model/node.ts';
import { arbitraryFaultTree } from '../../arbitraries/fault-tree.ts';
import { makeCause, makeCheck, makeHandOver, makePath, makeTree } from '../../arbitraries/make-tree.ts';

const tree = makeTree([
  makeCheck('lamp', { 'yes dim': 'rail', no: 'fuse' }),
  makePath('rail', { input: 'fuse', middle: 'regulator', chip: 'socket' }, 'leave-it'),
  makeCause('fuse'),
  makeCause('regulator'),
  makeCause('socket'),
  makeHandOver('leave-it'),
]);

const anyTree = arbitraryFaultTree({ mostInner: 12, mostEnds: 12 });

describe('linksFrom', () => {
  it('lists the outcomes of a check in the order of the file', () => {
    expect(linksFrom(makeCheck('lamp', { 'yes dim': 'rail', no: 'fuse' }))).toEqual([
      { from: 'lamp', to: 'rail', words: ['yes', 'dim'], part: '/outcome/0@to' },
      { from: 'lamp', to: 'fuse', words: ['no'], part: '/outcome/1@to' },
    ]);
  });

  it('lists the stages of a path, then where a good last stage leads', () => {
    expect(linksFrom(makePath('rail', { input: 'fuse', chip: 'socket' }, 'leave-it'))).toEqual([
      { from: 'rail', to: 'fuse', words: ['stage-0'], title: 'input', part: '/stage/stage-0@fault' },
      { from: 'rail', to: 'socket', words: ['stage-1'], title: 'chip', part: '/stage/stage-1@fault' },
      { from: 'rail', to: 'leave-it', words: ['good'], part: '@good' },
    ]);
  });

  it('is empty for an end', () => {
    expect(linksFrom(makeCause('fuse'))).toEqual([]);
    expect(linksFrom(makeHandOver('leave-it'))).toEqual([]);
  });
});

describe('reachableFrom', () => {
  it('holds the start and everything behind it', () => {
    expect([...reachableFrom(tree, 'lamp')].toSorted()).toEqual([
      'fuse',
      'lamp',
      'leave-it',
      'rail',
      'regulator',
      'socket',
    ]);
    expect([...reachableFrom(tree, 'socket')]).toEqual(['socket']);
  });

  it('is empty from a node that does not exist, and leaves out links into nothing', () => {
    const broken = makeTree([makeCheck('lamp', { yes: 'nowhere', no: 'fuse' }), makeCause('fuse')]);

    expect(reachableFrom(broken, 'nowhere').size).toBe(0);
    expect([...reachableFrom(broken, 'lamp')].toSorted()).toEqual(['fuse', 'lamp']);
  });

  it('ends in a draft that runs in circles', () => {
    const circle = makeTree([makeCheck('a', { x: 'b', y: 'a' }), makeCheck('b', { x: 'a', y: 'b' })]);

    expect([...reachableFrom(circle, 'b')].toSorted()).toEqual(['a', 'b']);
  });

  it('is safe for a chain of 2,000 checks', () => {
    const ids = Array.from({ length: 2000 }, (_, index) => `n${index}`);
    const chain = makeTree([
      ...ids.map((id, index) => makeCheck(id, { yes: ids[index + 1] ?? 'last', no: 'last' })),
      makeCause('last'),
    ]);

    expect(reachableFrom(chain, 'n0').size).toBe(2001);
  });

  it('holds every node of a sound tree from its start, and for each node what its links reach', () => {
    fc.assert(
      fc.property(anyTree, (made) => {
        const start = made.nodes[0]?.id ?? '';

        expect(reachableFrom(made, start).size).toBe(made.nodes.length);
        for (const node of made.nodes) {
          const behind = linksFrom(node).flatMap(({ to }) => [...reachableFrom(made, to)]);
          expect(reachableFrom(made, node.id)).toEqual(new Set([node.id, ...behind]));
        }
      }),
    );
  });
});

describe('linksTo', () => {
  it('lists every way into a node', () => {
    expect(linksTo(tree, 'fuse').map(({ from, words }) => [from, words])).toEqual([
      ['lamp', ['no']],
      ['rail', ['stage-0']],
    ]);
    expect(linksTo(tree, 'lamp')).toEqual([]);
  });

  it('holds the same links as linksFrom, sorted by where they arrive', () => {
    fc.assert(
      fc.property(anyTree, (made) => {
        const out = made.nodes.flatMap(linksFrom);
        const into = made.nodes.flatMap(({ id }) => linksTo(made, id));

        expect(into).toHaveLength(out.length);
        expect(new Set(into.map((link) => `${link.from}${link.part}`))).toEqual(
          new Set(out.map((link) => `${link.from}${link.part}`)),
        );
      }),
    );
  });
});

describe('makeTreeMap', () => {
  it('tells a page of every node where its answers lead', () => {
    expect(makeTreeMap(tree, ['sample'], [])).toMatchObject({
      start: 'lamp',
      nodes: [
        {
          id: 'lamp',
          links: [
            { words: ['yes', 'dim'], to: 'rail' },
            { words: ['no'], to: 'fuse' },
          ],
        },
        {
          id: 'rail',
          links: [
            { words: ['stage-0'], to: 'fuse' },
            { words: ['stage-1'], to: 'regulator' },
            { words: ['stage-2'], to: 'socket' },
            { words: ['good'], to: 'leave-it' },
          ],
        },
        { id: 'fuse', links: [] },
        { id: 'regulator', links: [] },
        { id: 'socket', links: [] },
        { id: 'leave-it', links: [] },
      ],
    });
  });

  it('names only nodes that exist', () => {
    fc.assert(
      fc.property(anyTree, (made) => {
        for (const { links } of makeTreeMap(made, [], []).nodes) {
          for (const { to } of links) expect(findNode(made, to)).toBeDefined();
        }
      }),
    );
  });
});

const library = loadLibrary();

function nodeOf(id: string): NonNullable<ReturnType<typeof findNode>> {
  const tree = library.trees.get('audio-hum');
  const node = tree === undefined ? undefined : findNode(tree, id);
  if (node === undefined) throw new Error(`No node ${id}.`);
  return node;
}

// What each sheet of content/trees/audio/audio-hum.mdx says of its power and its set-ups.
describe('isOpenLive', () => {
  it.each([
    ['outside-try', false, 'power on, no set-up'],
    ['knob', false, 'power on with the lid on'],
    ['supply-look', false, 'case open, power off'],
    ['speaker-dc', true, 'case open, power on'],
    ['earth-missing', false, 'a hand-over'],
  ])('%s: %s (%s)', (id, expected) => {
    expect(isOpenLive(nodeOf(id), library)).toBe(expected);
  });

  it.each(['board-disconnected', 'chips-out', 'board-out'])('counts %s as open', (setup) => {
    const knob = nodeOf('knob');
    expect(knob.kind).toBe('check');
    if (knob.kind === 'check') expect(isOpenLive({ ...knob, needs: [setup] }, library)).toBe(true);
  });
});

describe('isBeforeSwitchMode', () => {
  it('holds for steps that a unit with a transformer may come to, and for none behind the answer “switch-mode”', () => {
    const kind = makeCheck('kind', { iron: 'near', electronic: 'far', cannot: 'stop' });
    const tree = makeTree([
      { ...kind, outcomes: kind.outcomes.map((one) => (one.to === 'far' ? { ...one, supply: ['switch-mode'] } : one)) },
      makeCheck('near', { yes: 'a', no: 'b' }),
      makeCheck('far', { yes: 'a', no: 'c' }),
      makeCause('a'),
      makeCause('b'),
      makeCause('c'),
      makeHandOver('stop'),
    ]);

    expect(tree.nodes.filter((node) => isBeforeSwitchMode(tree, node)).map(({ id }) => id)).toEqual([
      'kind',
      'near',
      'a',
      'b',
    ]);
  });
});

describe('isHandOverForSafety', () => {
  it.each([
    ['earth-missing', true, 'licensed'],
    ['switch-mode-hum', true, 'switch-mode'],
    ['picked-up', false, 'not-a-fault'],
    ['hiss-only', false, 'beyond-this-page'],
    ['knob', false, 'a check'],
  ])('%s: %s (%s)', (id, expected) => {
    expect(isHandOverForSafety(nodeOf(id))).toBe(expected);
  });
});

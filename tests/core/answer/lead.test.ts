import { waysOf } from '#core/model/node.ts';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { emptyLinkState, type LinkState, withAnswer } from '#core/answer/answer.ts';
import { findNextAsked, leadsTo, nextAfter, openAsked, withAsked } from '#core/answer/lead.ts';
import { parseLinkState } from '#core/link/fragment.ts';
import { makeTreeMap } from '#core/link/make-tree-map.ts';
import { namesOf } from '#core/link/tree-map.ts';
import { makeCause, makeCheck, makePath, makeTree } from '../../arbitraries/make-tree.ts';

const ids = ['a', 'b', 'c', 'd', 'e', 'f', 'g'];
const tree = makeTree([...ids.map((id) => makeCheck(id, { yes: 'end-1', no: 'end-1' })), makeCause('end-1')]);
const names = namesOf(makeTreeMap(tree, [], []));

function answered(state: LinkState, node: string): LinkState {
  return withAnswer(state, { tree: undefined, node, stage: undefined, value: 'yes' });
}

describe('the way through asked checks', () => {
  it('leads through each of them once, in the order of asking, from whichever comes first, and ends on the last', () => {
    fc.assert(
      fc.property(fc.shuffledSubarray(ids, { minLength: 1, maxLength: 5 }), fc.nat(), (asked, seed) => {
        let state: LinkState = { ...emptyLinkState, ask: asked };
        let here = asked[seed % asked.length] ?? '';
        const visited: string[] = [];
        for (let step = 0; step < asked.length; step += 1) {
          visited.push(here);
          state = answered(state, here);
          here = findNextAsked(state, here) ?? '';
        }
        expect(visited.toSorted()).toEqual(asked.toSorted());
        expect(openAsked(state)).toEqual([]);
        expect(here).toBe(visited.at(-1));
      }),
    );
  });

  it('is left to the tree where the check was not asked', () => {
    expect(findNextAsked({ ...emptyLinkState, ask: ['a'] }, 'b')).toBeUndefined();
    expect(findNextAsked(emptyLinkState, 'b')).toBeUndefined();
  });

  it('passes over what was answered already', () => {
    const state = answered({ ...emptyLinkState, ask: ['a', 'b', 'c'] }, 'b');

    expect(findNextAsked(answered(state, 'a'), 'a')).toBe('c');
  });
});

describe('asking', () => {
  const mine = answered(answered(emptyLinkState, 'a'), 'b');

  it('carries the evidence, but not an old answer to what is asked again', () => {
    const { ask, answers } = withAsked(mine, ['b', 'c', 'b'], true);

    expect(ask).toEqual(['b', 'c']);
    expect(answers.map(({ node }) => node)).toEqual(['a']);
  });

  it('leaves the evidence at home where the helper wishes so', () => {
    expect(withAsked({ ...mine, did: ['end-1'] }, ['c'], false)).toEqual({ ...emptyLinkState, ask: ['c'] });
  });

  it('asks for five checks at most, whoever made the link', () => {
    expect(withAsked(emptyLinkState, ids, true).ask).toHaveLength(5);
    const { state, problems } = parseLinkState(`ask=${ids.join(',')}`, names);

    expect(state.ask).toEqual(['a', 'b', 'c', 'd', 'e']);
    expect(problems).toEqual(['The link asks for 7 checks; the first 5 are asked.']);
  });
});

describe('where an answer leads', () => {
  const path = makePath('line', { one: 'end-1', two: 'end-2' }, 'end-3');
  const [first, second] = path.stages.map(({ id }) => id);
  const check = makeCheck('look', { low: 'line', sometimes: 'end-2', high: 'end-3' });
  const made = makeTree([check, path, makeCause('end-1'), makeCause('end-2'), makeCause('end-3')]);
  // The page knows the map, the engine the tree: both must lead to the same node.
  const both = (node: string, stage: string | undefined, value: string): readonly (string | undefined)[] =>
    [makeTreeMap(made, [], []).nodes, waysOf(made)].map((nodes) =>
      leadsTo({ tree: undefined, node, stage, value }, nodes),
    );

  it.each([
    ['a word of the check', 'look', undefined, 'low', 'line'],
    ['so often of so many times, which is sometimes', 'look', undefined, '3-of-8', 'end-2'],
    ['a path that is good', 'line', undefined, 'good', 'end-3'],
    ['a path answered by its first bad stage', 'line', undefined, second, 'end-2'],
    ['the same stage marked bad', 'line', second, 'bad', 'end-2'],
    ['a stage that is good, which leaves the reader on the path', 'line', first, 'good', undefined],
    ['a reading, which decides nothing before it is judged', 'look', undefined, '4.7V', undefined],
    ['a word that the check does not know', 'look', undefined, 'purple', undefined],
  ])('is the same on the first paint and for the engine: %s', (_name, node, stage, value = '', expected) => {
    expect(both(node, stage, value)).toEqual([expected, expected]);
  });

  it('is the next check that the link asks for, whatever was answered there, and the tree’s way without asking', () => {
    const given = { tree: undefined, node: 'a', stage: undefined, value: 'unseen' };
    const nodes = waysOf(tree);

    expect(nextAfter(given, withAnswer({ ...emptyLinkState, ask: ['a', 'c'] }, given), nodes)).toBe('c');
    expect(nextAfter(given, withAnswer(emptyLinkState, given), nodes)).toBeUndefined();
    expect(nextAfter({ ...given, value: 'yes' }, emptyLinkState, nodes)).toBe('end-1');
  });
});

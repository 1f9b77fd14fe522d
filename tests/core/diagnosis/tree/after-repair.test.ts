import { describe, expect, test } from 'vitest';
import { carryAnswer, keepAfterRepair } from '#core/diagnosis/tree/carry-answers.ts';
import { walkRoad } from '#core/diagnosis/tree/written-road.ts';
import type { Answer } from '#core/answer/answer.ts';
import { makeCause, makeCheck, makePath, makeTree } from '../../../arbitraries/make-tree.ts';

function answer(node: string, value: string, stage?: string): Answer {
  return { tree: undefined, node, stage, value };
}

describe('answers after a repair that made it worse or different', () => {
  const tree = makeTree([
    makeCheck('lamp', { yes: 'rail', no: 'fuse' }),
    makeCheck('rail', { low: 'regulator', in: 'line' }),
    makePath('line', { Socket: 'socket', Chip: 'chip' }, 'lead'),
    makeCause('fuse'),
    makeCause('regulator'),
    makeCause('socket', { shows: { lamp: ['yes'] } }),
    makeCause('chip'),
    makeCause('lead'),
  ]);
  const answers = [answer('lamp', 'yes'), answer('rail', 'in'), answer('line', 'bad', 'stage-1')];

  test('those of checks that say something of the part are stale, the others stay, in their order', () => {
    expect(keepAfterRepair(tree, answers, 'regulator')).toEqual({
      kept: [answer('line', 'bad', 'stage-1')],
      stale: [answer('lamp', 'yes'), answer('rail', 'in')],
    });
  });

  test('an unknown cause leaves them all', () => {
    expect(keepAfterRepair(tree, answers, 'nobody')).toEqual({ kept: answers, stale: [] });
  });
});

describe('an answer carried into another tree', () => {
  const target = { target: 'rail-5v', point: 'chip-supply' };
  const from = makeTree([
    makeCheck('rail-far', { low: 'one', in: 'two' }, { target, power: 'on' }),
    makeCheck('light', { yes: 'one', no: 'two' }, { sign: 'any-light' }),
    makeCause('one'),
    makeCause('two'),
  ]);
  const into = makeTree([
    makeCheck('lamp', { yes: 'supply', no: 'dark' }, { sign: 'any-light' }),
    makeCheck('supply', { low: 'dark', in: 'fine' }, { target, power: 'on' }),
    makeCheck('other', { low: 'dark', in: 'fine' }, { target: { ...target, point: 'regulator-out' }, power: 'on' }),
    makeCause('dark'),
    makeCause('fine'),
  ]);

  test('becomes that tree’s own where both ask for the same target at the same point, or for the same sign', () => {
    expect(carryAnswer(from, { ...answer('rail-far', '4.71V'), tree: 'other-tree' }, into)).toEqual(
      answer('supply', '4.71V'),
    );
    expect(carryAnswer(from, { ...answer('light', 'no'), tree: 'other-tree' }, into)).toEqual(answer('lamp', 'no'));
  });

  test('says nothing where it asks for neither, at another point, or at a stage', () => {
    const bare = makeTree([
      makeCheck(
        'elsewhere',
        { low: 'a', in: 'b' },
        { target: { target: 'rail-5v', point: 'regulator-out' }, power: 'on' },
      ),
      makeCause('a'),
      makeCause('b'),
    ]);
    expect(carryAnswer(from, answer('rail-far', '4.71V'), bare)).toBeUndefined();
    expect(carryAnswer(from, answer('unknown', 'yes'), into)).toBeUndefined();
    expect(carryAnswer(from, answer('rail-far', 'in', 'stage-0'), into)).toBeUndefined();
  });
});

test('the written road leads by the answers to the first node without one', () => {
  const tree = makeTree([
    makeCheck('lamp', { yes: 'rail', no: 'fuse' }),
    makeCheck('rail', { low: 'fuse', in: 'line' }),
    makePath('line', { Socket: 'fuse', Chip: 'chip' }, 'chip'),
    makeCause('fuse'),
    makeCause('chip'),
  ]);
  expect(walkRoad(tree, new Map())).toEqual(['lamp']);
  expect(
    walkRoad(
      tree,
      new Map([
        ['lamp', 'yes'],
        ['rail', 'in'],
      ]),
    ),
  ).toEqual(['lamp', 'rail', 'line']);
  expect(
    walkRoad(
      tree,
      new Map([
        ['lamp', 'yes'],
        ['rail', 'in'],
        ['line', 'stage-1'],
      ]),
    ),
  ).toEqual(['lamp', 'rail', 'line', 'chip']);
  expect(walkRoad(tree, new Map([['rail', 'in']]))).toEqual(['lamp']);
});

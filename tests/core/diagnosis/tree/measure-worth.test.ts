import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { measureIsolation } from '../../../support/diagnosis/measure-isolation.ts';
import { chanceWeights } from '#core/diagnosis/tree/derive-problem.ts';
import { measureSeparation, measureWorth } from '#core/diagnosis/tree/measure-worth.ts';
import { makeCause, makeCheck, makeTree } from '../../../arbitraries/make-tree.ts';

const references = { setups: new Map(), instruments: new Map() };

describe('worth of a tree', () => {
  test('minutes in the order written, by hand: the first check for all, the second for two of three', () => {
    const tree = makeTree([
      makeCheck('first', { yes: 'one', no: 'second' }, { minutes: 2 }),
      makeCheck('second', { low: 'two', in: 'three' }, { minutes: 3 }),
      makeCause('one'),
      makeCause('two'),
      makeCause('three'),
    ]);
    const { isolate, separation } = measureWorth(tree, references);
    expect(isolate.written.expectedMinutes).toBeCloseTo(2 + (2 / 3) * 3, 9);
    expect(isolate.written.worstMinutes).toBe(5);
    expect(separation).toMatchObject({ isolatedToOne: 1, expectedGroupSize: 1, idleChecks: [] });
  });

  test('an order that asks the dear check first is worth less than the best, and the engine finds that', () => {
    // Both checks tell the two causes apart; the written order makes the 20-minute one first and never needs the other.
    const tree = makeTree([
      makeCheck('dear', { yes: 'one', no: 'cheap' }, { minutes: 20 }),
      makeCheck('cheap', { low: 'two', in: 'one' }, { minutes: 1 }),
      makeCause('one', { shows: { dear: ['yes'], cheap: ['in'] } }),
      makeCause('two', { shows: { dear: ['no'] } }),
    ]);
    const { isolate } = measureWorth(tree, references);
    expect(isolate.written.expectedMinutes).toBeCloseTo(20, 9);
    expect(isolate.chosen.expectedMinutes).toBeCloseTo(1, 9);
  });

  test('two causes that nothing separates are named, weightiest first, and the advice is a check between them', () => {
    const tree = makeTree([
      makeCheck('only', { yes: 'alone', no: 'next' }, { minutes: 2 }),
      makeCheck('next', { low: 'twin-a', in: 'twin-b' }, { minutes: 2 }),
      makeCause('alone', { chance: 'rare' }),
      makeCause('twin-a', { shows: { next: ['low'] } }),
      makeCause('twin-b', { shows: { next: ['low'] } }),
    ]);
    const worth = measureWorth(tree, references);
    expect(worth.separation.pairs[0]).toEqual({
      ends: ['twin-a', 'twin-b'],
      alike: [
        { check: 'only', outcomes: ['no'] },
        { check: 'next', outcomes: ['low'] },
      ],
    });
    expect(worth.separation.expectedGroupSize).toBeCloseTo((1 * 1 + 9 * 2 + 9 * 2) / 19, 9);
    expect(worth.advice).toContain('“The part twin-a failed” and “The part twin-b failed”');
  });

  test('a check that comes out alike for everything is idle and never pays', () => {
    const tree = makeTree([
      makeCheck('ritual', { yes: 'real', no: 'real' }, { minutes: 5 }),
      makeCheck('real', { low: 'one', in: 'two' }),
      makeCause('one'),
      makeCause('two'),
    ]);
    const worth = measureWorth(tree, references);
    expect(worth.separation.idleChecks).toEqual(['ritual']);
    expect(worth.neverPays).toEqual(['ritual']);
  });

  test('the checks that say nothing of a common end are named, and no end that is rarer', () => {
    // `side` is off the road to `one`, and no `shows` of it speaks of `side`; `two` is reached through both.
    const tree = makeTree([
      makeCheck('first', { yes: 'one', no: 'side' }),
      makeCheck('side', { low: 'two', in: 'three' }),
      makeCause('one', { chance: 'common' }),
      makeCause('two', { chance: 'common' }),
      makeCause('three', { chance: 'rare' }),
    ]);

    expect(measureSeparation(tree, references).silent).toEqual([{ end: 'one', checks: ['side'] }]);
  });

  test('where every end says one word at every check, the shares are those of IEEE 1522 as measureIsolation has them', () => {
    fc.assert(
      fc.property(
        fc.array(fc.array(fc.constantFrom('low', 'in', 'high'), { minLength: 3, maxLength: 3 }), {
          minLength: 2,
          maxLength: 6,
        }),
        fc.array(fc.constantFrom('common', 'occasional', 'rare'), { minLength: 6, maxLength: 6 }),
        (words, chances) => {
          const causes = words.map((row, cause) =>
            makeCause(`cause-${cause}`, {
              chance: chances[cause] ?? 'rare',
              shows: Object.fromEntries(row.map((word, check) => [`check-${check}`, [word]])),
            }),
          );
          const [first = '', second = ''] = causes.map(({ id }) => id);
          const tree = makeTree([
            makeCheck('check-0', { low: 'check-1', in: first, high: second }),
            makeCheck('check-1', { low: 'check-2', 'in high': first }),
            makeCheck('check-2', { low: first, 'in high': second }),
            ...causes,
          ]);
          const separation = measureSeparation(tree, references);
          const metrics = measureIsolation(
            causes.map(({ id, chance }, cause) => ({ id, rate: chanceWeights[chance], outcomes: words[cause] ?? [] })),
          );
          expect(separation.isolatedToOne).toBeCloseTo(metrics.isolatedFraction(1), 9);
          expect(separation.isolatedToTwo).toBeCloseTo(metrics.isolatedFraction(2), 9);
          expect(separation.isolatedToThree).toBeCloseTo(metrics.isolatedFraction(3), 9);
          expect(separation.expectedGroupSize).toBeCloseTo(metrics.expectedGroupSize, 9);
        },
      ),
      { numRuns: 100 },
    );
  });
});

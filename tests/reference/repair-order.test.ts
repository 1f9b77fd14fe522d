import { describe, expect, test } from 'vitest';
import { planSound, readSound } from '../support/diagnosis/make-problem.ts';
import { createRandom } from '../support/diagnosis/random.ts';

describe('the order of repairs', () => {
  // Theorem (Gluss 1959, Mitten 1960, Kadane and Simon 1977, from memory): falling probability over cost is the best order.
  test('is the best of all orders tried one by one, and that order falls in probability over cost, in 200 problems', () => {
    for (let seed = 1; seed <= 200; seed++) {
      const random = createRandom(seed);
      const repairs = Array.from({ length: 3 + (seed % 4) }, () => ({
        weight: 0.05 + random(),
        minutes: 1 + 30 * random(),
      }));
      const total = repairs.reduce((sum, repair) => sum + repair.weight, 0);
      const price = (order: readonly number[]): number => {
        let left = 1;
        return order.reduce((sum, index) => {
          const cost = left * (repairs[index]?.minutes ?? 0);
          left -= (repairs[index]?.weight ?? 0) / total;
          return sum + cost;
        }, 0);
      };
      const cheapest = Math.min(...listOrders(repairs.map((_, index) => index)).map(price));
      const byRate = repairs
        .map((_, index) => index)
        .toSorted((first, second) => rate(repairs[second]) - rate(repairs[first]));
      const plan = planSound(
        readSound({
          goal: 'repair',
          giveUpMinutes: 1e6,
          causes: repairs.map(({ weight, minutes }, index) => ({ id: `c${index}`, weight, repairMinutes: minutes })),
        }),
      );
      expect(price(byRate)).toBeCloseTo(cheapest, 9);
      expect(plan.expectedMinutes).toBeCloseTo(cheapest, 9);
      expect(plan.next).toEqual({ repair: `c${byRate[0]}` });
    }
  });

  // Derived: where the last one is inferred and not tested, the rule fails. .6 at 10 minutes and .4 at 8: the rule tests the first.
  test('is not the order of tests where the last cause is inferred: 8 minutes, and not the 10 of the rule', () => {
    const plan = planSound(
      readSound({
        goal: 'isolate',
        causes: [
          { id: 'a', weight: 0.6 },
          { id: 'b', weight: 0.4 },
        ],
        checks: [
          {
            id: 'test-a',
            minutes: 10,
            outcomes: ['bad', 'good'],
            likelihood: [
              [1, 0],
              [0, 1],
            ],
          },
          {
            id: 'test-b',
            minutes: 8,
            outcomes: ['bad', 'good'],
            likelihood: [
              [0, 1],
              [1, 0],
            ],
          },
        ],
      }),
    );
    expect(plan.next).toEqual({ check: 'test-b' });
    expect(plan.expectedMinutes).toBe(8);
  });

  // Search with overlooking (Blackwell, from memory): a failed try leaves w(1 − s); tried once only, the rest is charged as the stop.
  test('counts a repair that may fail once, then what stopping costs: 10 + 0.2 × 60 minutes', () => {
    const plan = planSound(
      readSound({
        goal: 'repair',
        giveUpMinutes: 60,
        proveMinutes: 4,
        causes: [{ id: 'a', weight: 3, repairMinutes: 6, repairSuccess: 0.8 }],
      }),
    );
    expect(plan.expectedMinutes).toBeCloseTo(22, 12);
    expect(plan.worstMinutes).toBe(70);
  });
});

function rate(repair: { readonly weight: number; readonly minutes: number } | undefined): number {
  return repair === undefined ? 0 : repair.weight / repair.minutes;
}

function listOrders(items: readonly number[]): readonly (readonly number[])[] {
  if (items.length < 2) return [items];
  return items.flatMap((item) => listOrders(items.filter((other) => other !== item)).map((rest) => [item, ...rest]));
}

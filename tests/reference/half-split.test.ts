import { describe, expect, test } from 'vitest';
import { type PathPlan, planPath } from '#core/diagnosis/plan-path.ts';
import type { PathEvidence } from '#core/diagnosis/problem.ts';
import { createRandom } from '../support/diagnosis/random.ts';
import { planSound, readSound } from '../support/diagnosis/make-problem.ts';

function plan(
  weights: readonly number[],
  minutes: readonly number[],
  evidence: readonly PathEvidence[] = [],
): PathPlan {
  const result = planPath({
    kind: 'path',
    stages: weights.map((weight, index) => ({ id: `s${index}`, weight })),
    probes: minutes.map((each) => ({ minutes: each })),
    evidence,
  });
  if (result.kind !== 'plan') throw new Error(result.text);
  return result.plan;
}

const equal = (count: number): readonly number[] => Array.from({ length: count }, () => 1);

describe('half-split of a signal path', () => {
  // US Army Intelligence Center, Subcourse IT0338 edition A, Introduction to Logical Troubleshooting, May 1996, frames 9 to 11:
  // brackets at points A and I, first check at E; it is normal, so the next is G. Points A to I stand around eight stages.
  test('checks E first of the points A to I, and G next after a normal E, as the troubleshooting course does', () => {
    const point = (probe: number | undefined): string =>
      probe === undefined ? '' : String.fromCharCode('B'.charCodeAt(0) + probe);
    expect(point(plan(equal(8), equal(7)).nextProbe)).toBe('E');
    expect(point(plan(equal(8), equal(7), [{ probe: 3, likelihood: [1, 0] }]).nextProbe)).toBe('G');
  });

  // Derived by hand: seven halves of unit probes around a middle one of 20 minutes; 7.875 = 1 + 1 + … against 20 + 2 for the middle.
  test('leaves a dear probe in the middle alone: 7.875 minutes, beginning one stage before it', () => {
    const found = plan(equal(8), [1, 1, 1, 20, 1, 1, 1]);
    expect(found.expectedMinutes).toBeCloseTo(7.875, 12);
    expect([2, 4]).toContain(found.nextProbe);
    expect(found.nextProbe).toBe(2);
  });

  test('agrees with the general planner on 60 random paths, where each probe is a check of two outcomes', () => {
    for (let seed = 1; seed <= 60; seed++) {
      const random = createRandom(seed);
      const weights = Array.from({ length: 2 + (seed % 11) }, () => 0.1 + random());
      const minutes = weights.slice(1).map(() => Math.ceil(12 * random()));
      const general = planSound(
        readSound({
          goal: 'isolate',
          causes: weights.map((weight, index) => ({ id: `s${index}`, weight })),
          checks: minutes.map((each, probe) => ({
            id: `p${String(probe).padStart(2, '0')}`,
            minutes: each,
            outcomes: ['good', 'bad'],
            likelihood: weights.map((_, stage) => (stage <= probe ? [0, 1] : [1, 0])),
          })),
        }),
      );
      expect(plan(weights, minutes).expectedMinutes).toBeCloseTo(general.expectedMinutes, 9);
    }
  });

  test('keeps together the stages around a probe that was in doubt, and says where probes contradict each other', () => {
    expect(plan(equal(3), equal(2), [{ probe: 0, likelihood: [0.5, 0.5] }]).groups).toEqual([[0, 1], [2]]);
    const contradiction = planPath({
      kind: 'path',
      stages: equal(3).map((weight, index) => ({ id: `s${index}`, weight })),
      probes: [{ minutes: 1 }, { minutes: 1 }],
      evidence: [
        { probe: 0, likelihood: [0, 1] },
        { probe: 1, likelihood: [1, 0] },
      ],
    });
    expect(contradiction.kind).toBe('contradiction');
  });
});

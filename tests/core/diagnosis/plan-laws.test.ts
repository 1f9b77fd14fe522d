import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { quick, thorough } from '#core/diagnosis/choose-action.ts';
import { type Plan, planProblem } from '#core/diagnosis/plan-problem.ts';
import { buildModel, startState } from '#core/diagnosis/model.ts';
import type { DiagnosisProblem, Evidence } from '#core/diagnosis/problem.ts';
import { screenChecks } from '#core/diagnosis/screen-checks.ts';
import { weighEvidence } from '#core/diagnosis/evidence.ts';
import { suggestNext } from '../../support/diagnosis/suggest-next.ts';
import { generateProblem } from '../../support/diagnosis/generate-problem.ts';

/** Small problems of every kind: 0/1 or unreliable, isolation or repair, with and without set-ups. */
const problems: fc.Arbitrary<DiagnosisProblem> = fc
  .record({
    seed: fc.integer({ min: 1, max: 1_000_000 }),
    causeCount: fc.integer({ min: 1, max: 5 }),
    checkCount: fc.integer({ min: 0, max: 4 }),
    setupCount: fc.integer({ min: 0, max: 2 }),
    goal: fc.constantFrom('isolate' as const, 'repair' as const),
    isCrisp: fc.boolean(),
  })
  .map(({ seed, ...shape }) => generateProblem(seed, shape));

/** A problem with evidence that one of its causes can have caused. */
const problemsWithEvidence: fc.Arbitrary<DiagnosisProblem> = fc
  .tuple(
    problems,
    fc.nat(),
    fc.array(fc.tuple(fc.nat(), fc.double({ min: 0.05, max: 1, noNaN: true })), { maxLength: 3 }),
  )
  .map(([problem, truth, answers]) => {
    const cause = truth % problem.causes.length;
    const evidence = answers.flatMap(([pick, doubt], index): readonly Evidence[] => {
      const check = problem.checks[pick % Math.max(1, problem.checks.length)];
      if (check === undefined) return [];
      const row = check.likelihood[cause] ?? [];
      const shown = row.indexOf(Math.max(...row));
      if (index % 2 === 0) return [{ kind: 'outcome', check: check.id, outcome: check.outcomes[shown] ?? '' }];
      return [
        { kind: 'reading', check: check.id, likelihood: row.map((_, outcome) => (outcome === shown ? 1 : 1 - doubt)) },
      ];
    });
    return { ...problem, evidence };
  });

function plan(problem: DiagnosisProblem): Plan {
  const result = planProblem(problem);
  if (result.kind !== 'plan') throw new Error(result.contradiction.text);
  return result.plan;
}

const near = (value: number, expected: number): void =>
  expect(Math.abs(value - expected)).toBeLessThan(1e-8 * Math.max(1, Math.abs(expected)));

describe('laws of the plan', () => {
  test('the order of causes, checks, outcomes and evidence changes nothing', () => {
    fc.assert(
      fc.property(problemsWithEvidence, (problem) => {
        const turned: DiagnosisProblem = {
          ...problem,
          causes: problem.causes.toReversed(),
          checks: problem.checks.toReversed().map((check) => ({
            ...check,
            outcomes: check.outcomes.toReversed(),
            likelihood: check.likelihood.toReversed().map((row) => row.toReversed()),
          })),
          evidence: problem.evidence
            .toReversed()
            .map((item) => (item.kind === 'reading' ? { ...item, likelihood: item.likelihood.toReversed() } : item)),
        };
        const first = plan(problem);
        const second = plan(turned);
        expect(second.next).toEqual(first.next);
        near(second.expectedMinutes, first.expectedMinutes);
        near(second.worstMinutes, first.worstMinutes);
        for (const [index, { probability }] of second.posterior.toReversed().entries())
          near(probability, first.posterior[index]?.probability ?? Number.NaN);
      }),
    );
  });

  test('other names for causes and checks cost the same', () => {
    fc.assert(
      fc.property(problems, (problem) => {
        const renamed: DiagnosisProblem = {
          ...problem,
          causes: problem.causes.map((cause, index) => ({ ...cause, id: `z${problem.causes.length - index}` })),
          checks: problem.checks.map((check, index) => ({ ...check, id: `y${problem.checks.length - index}` })),
        };
        near(plan(renamed).expectedMinutes, plan(problem).expectedMinutes);
      }),
    );
  });

  test('weights on another scale change nothing; minutes on another scale change minutes alone', () => {
    fc.assert(
      fc.property(problemsWithEvidence, fc.constantFrom(0.001, 0.5, 60, 4096), (problem, scale) => {
        const first = plan(problem);
        const heavier = plan({
          ...problem,
          causes: problem.causes.map((cause) => ({ ...cause, weight: cause.weight * scale })),
        });
        expect(heavier.next).toEqual(first.next);
        near(heavier.expectedMinutes, first.expectedMinutes);
        const longer = plan({
          ...problem,
          proveMinutes: problem.proveMinutes * scale,
          giveUpMinutes: problem.giveUpMinutes * scale,
          causes: problem.causes.map((cause) => ({ ...cause, repairMinutes: (cause.repairMinutes ?? 0) * scale })),
          checks: problem.checks.map((check) => ({ ...check, minutes: check.minutes * scale })),
          setups: problem.setups.map((setup) => ({ ...setup, minutes: setup.minutes * scale })),
        });
        near(longer.expectedMinutes, first.expectedMinutes * scale);
      }),
    );
  });

  test('a check is never suggested that was done, tells nothing, or is held back, and a repair never twice', () => {
    fc.assert(
      fc.property(problemsWithEvidence, fc.constantFrom(quick, thorough), (problem, effort) => {
        const model = buildModel(problem);
        const held = problem.checks.slice(0, 1).map((check) => check.id);
        const tried = problem.causes
          .slice(0, 1)
          .filter((cause) => cause.repairSuccess < 1)
          .map((cause): Evidence => ({ kind: 'repaired', cause: cause.id }));
        const evidence = [...problem.evidence, ...tried];
        const next = suggestNext(problem, model, evidence, effort, held);
        if (next === null) return;
        if ('repair' in next) expect(tried).not.toContainEqual({ kind: 'repaired', cause: next.repair });
        if (!('check' in next)) return;
        expect(held).not.toContain(next.check);
        expect(evidence.some((item) => item.kind !== 'repaired' && item.check === next.check)).toBe(false);
        const rows = problem.checks.find((check) => check.id === next.check)?.likelihood ?? [];
        const posterior = weighEvidence(problem, evidence);
        if (posterior.kind !== 'posterior') throw new Error(posterior.contradiction.text);
        const live = rows.filter((_, cause) => (posterior.probabilities[cause] ?? 0) > 0);
        expect(new Set(live.map((row) => row.join())).size).toBeGreaterThan(1);
      }),
    );
  });

  test('information is never negative, and never more than the doubt there is', () => {
    fc.assert(
      fc.property(problemsWithEvidence, (problem) => {
        const posterior = weighEvidence(problem);
        if (posterior.kind !== 'posterior') throw new Error(posterior.contradiction.text);
        const doubt = posterior.probabilities.reduce(
          (sum, probability) => (probability > 0 ? sum - probability * Math.log2(probability) : sum),
          0,
        );
        for (const { informationBits } of screenChecks(
          buildModel(problem),
          startState(problem, buildModel(problem), posterior.probabilities),
        )) {
          expect(informationBits).toBeGreaterThan(0);
          expect(informationBits).toBeLessThan(doubt + 1e-9);
        }
      }),
    );
  });

  test('a further check never makes a repair dearer, and neither does a cheaper one', () => {
    fc.assert(
      fc.property(
        problems.filter((problem) => problem.goal === 'repair' && problem.checks.length > 0),
        (problem) => {
          const all = plan(problem).expectedMinutes;
          expect(plan({ ...problem, checks: problem.checks.slice(1) }).expectedMinutes).toBeGreaterThan(all - 1e-8);
          expect(
            plan({ ...problem, checks: problem.checks.map((check) => ({ ...check, minutes: check.minutes / 2 })) })
              .expectedMinutes,
          ).toBeLessThan(all + 1e-8);
        },
      ),
    );
  });

  test('a second copy of a 0/1 check changes nothing', () => {
    fc.assert(
      fc.property(
        problems.filter((problem) =>
          problem.checks.every((check) => check.likelihood.every((row) => Math.max(...row) === 1)),
        ),
        (problem) => {
          const doubled = {
            ...problem,
            checks: [...problem.checks, ...problem.checks.map((check) => ({ ...check, id: `${check.id}-again` }))],
          };
          near(plan(doubled).expectedMinutes, plan(problem).expectedMinutes);
        },
      ),
    );
  });

  test('isolation comes before repair: a repair costs at most isolation and then the repairs of the group, or the stop', () => {
    fc.assert(
      fc.property(
        problems.filter(
          (problem) => problem.goal === 'repair' && problem.causes.every((cause) => cause.repairSuccess === 1),
        ),
        (problem) => {
          const isolation = plan({ ...problem, goal: 'isolate' });
          const repairs = isolation.groups.reduce((sum, group) => {
            const members = problem.causes.filter((cause) => group.includes(cause.id));
            const mass = isolation.posterior.reduce(
              (total, { id, probability }) => (group.includes(id) ? total + probability : total),
              0,
            );
            const minutes = members.reduce(
              (total, cause) => total + (cause.repairMinutes ?? 0) + problem.proveMinutes,
              0,
            );
            return sum + mass * minutes;
          }, 0);
          const setups = problem.setups.reduce((sum, setup) => sum + setup.minutes, 0);
          expect(plan(problem).expectedMinutes).toBeLessThan(
            Math.min(problem.giveUpMinutes, isolation.expectedMinutes + repairs + setups) + 1e-8,
          );
        },
      ),
    );
  });

  test('groups hold every cause that can still be, once, and the plan of an isolated cause is empty', () => {
    fc.assert(
      fc.property(problemsWithEvidence, (problem) => {
        const { groups, posterior, next, expectedMinutes } = plan(problem);
        expect(groups.flat().toSorted()).toEqual(
          posterior
            .filter(({ probability }) => probability > 0)
            .map(({ id }) => id)
            .toSorted(),
        );
        if (problem.goal === 'isolate' && groups.length === 1) expect([next, expectedMinutes]).toEqual([null, 0]);
      }),
    );
  });
});

describe('plans that need no search', () => {
  const bare = { kind: 'problem', checks: [], setups: [], proveMinutes: 3, giveUpMinutes: 240, evidence: [] } as const;
  const cause = (id: string, repairMinutes: number | undefined, weight = 1) => ({
    id,
    weight,
    repairMinutes,
    repairSuccess: 1,
    repairSetup: [],
  });

  test('one cause to isolate is isolated; one to repair is repaired and proved, though nothing else is left', () => {
    expect(plan({ ...bare, goal: 'isolate', causes: [cause('a', 10)] })).toMatchObject({
      next: null,
      expectedMinutes: 0,
      groups: [['a']],
    });
    expect(plan({ ...bare, goal: 'repair', causes: [cause('a', 10)] })).toMatchObject({
      next: { repair: 'a' },
      expectedMinutes: 13,
      worstMinutes: 13,
    });
  });

  test('stopping is taken where a repair costs more, or none is known, and charged for what is still open', () => {
    expect(plan({ ...bare, goal: 'repair', causes: [cause('a', 300)] })).toMatchObject({
      next: null,
      expectedMinutes: 240,
    });
    expect(plan({ ...bare, goal: 'repair', causes: [cause('a', undefined)] })).toMatchObject({
      next: null,
      expectedMinutes: 240,
    });
    // 10 + 3 minutes, then the other third is stopped at: 13 + 240 / 3.
    expect(plan({ ...bare, goal: 'repair', causes: [cause('a', 10, 2), cause('b', 500)] })).toMatchObject({
      next: { repair: 'a' },
      expectedMinutes: 93,
    });
  });

  test('equal choices go to the lower id, whatever the order in the file', () => {
    for (const causes of [
      [cause('b', 10), cause('a', 10)],
      [cause('a', 10), cause('b', 10)],
    ]) {
      expect(plan({ ...bare, goal: 'repair', causes }).next).toEqual({ repair: 'a' });
    }
  });

  test('a set-up is paid once, and not again after evidence that needed it', () => {
    const setups = [{ id: 'open', minutes: 20 }];
    const causes = [
      { ...cause('a', 1), repairSetup: ['open'] },
      { ...cause('b', 1), repairSetup: ['open'] },
    ];
    // 20 + 4 for the first, 4 for the second with probability one half.
    near(plan({ ...bare, setups, goal: 'repair', causes }).expectedMinutes, 26);
    near(
      plan({ ...bare, setups, goal: 'repair', causes, evidence: [{ kind: 'repaired', cause: 'a' }] }).expectedMinutes,
      4,
    );
  });
});

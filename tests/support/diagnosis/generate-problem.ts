import type { DiagnosisProblem, Goal, ProblemCause, ProblemCheck, ProblemSetup } from '#core/diagnosis/problem.ts';
import { createRandom } from './random.ts';

export interface ProblemShape {
  readonly causeCount: number;
  readonly checkCount: number;
  readonly setupCount: number;
  readonly goal: Goal;
  /** True: every check comes out one way for each cause, and repairs cure. False: checks may mislead, repairs may fail. */
  readonly isCrisp: boolean;
}

/**
 * Makes a problem from a seed: weights spread over a factor of about twenty, checks of 1 to 20 minutes, some with three outcomes,
 * repairs of 2 to 45 minutes, set-ups of 2 to 20 minutes shared by about a third of what is done.
 */
export function generateProblem(seed: number, shape: ProblemShape): DiagnosisProblem {
  const random = createRandom(seed);
  const between = (low: number, high: number): number => low + (high - low) * random();
  const setups = Array.from({ length: shape.setupCount }, (_, index): ProblemSetup => ({
    id: `setup-${index}`,
    minutes: Math.round(between(2, 20)),
  }));
  const pickSetups = (): readonly string[] => setups.filter(() => random() < 0.35).map((setup) => setup.id);
  const causes = Array.from({ length: shape.causeCount }, (_, index): ProblemCause => ({
    id: `cause-${String(index).padStart(3, '0')}`,
    weight: Math.exp(between(0, 3)),
    repairMinutes: Math.round(between(2, 45)),
    repairSuccess: shape.isCrisp ? 1 : between(0.6, 0.98),
    repairSetup: pickSetups(),
  }));
  const checks = Array.from({ length: shape.checkCount }, (_, index): ProblemCheck => {
    const outcomeCount = random() < 0.25 ? 3 : 2;
    const share = between(0.2, 0.6);
    const likelihood = causes.map(() => {
      const favourite = random() < share ? 1 + Math.floor(random() * (outcomeCount - 1)) : 0;
      if (shape.isCrisp)
        return Array.from({ length: outcomeCount }, (_unused, outcome) => (outcome === favourite ? 1 : 0));
      const knows = random() < 0.8;
      const doubt = between(0.02, 0.2);
      const raw = Array.from({ length: outcomeCount }, (_unused, outcome) =>
        knows ? (outcome === favourite ? 1 - doubt : doubt / (outcomeCount - 1)) : between(0.2, 1),
      );
      const sum = raw.reduce((total, value) => total + value, 0);
      return raw.map((value) => value / sum);
    });
    return {
      id: `check-${String(index).padStart(3, '0')}`,
      minutes: Math.round(between(1, 20)),
      setup: pickSetups(),
      outcomes: ['in', 'low', 'high'].slice(0, outcomeCount),
      likelihood,
    };
  });
  return {
    kind: 'problem',
    causes,
    checks,
    setups,
    goal: shape.goal,
    proveMinutes: shape.goal === 'repair' ? Math.round(between(0, 10)) : 0,
    giveUpMinutes: 240,
    evidence: [],
  };
}

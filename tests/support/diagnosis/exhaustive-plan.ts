import type { DiagnosisProblem } from '#core/diagnosis/problem.ts';

/**
 * The best possible expected minutes, written from the definition of the plan problem and sharing nothing with the engine:
 * no bounds, no ordering, no reduction. Slow on purpose.
 */
export function findOptimum(problem: DiagnosisProblem): number {
  const isCrisp =
    problem.checks.every((check) =>
      check.likelihood.every((row) => row.every((value) => value === 0 || value === 1)),
    ) && problem.causes.every((cause) => cause.repairSuccess === 1 && cause.repairMinutes !== undefined);
  return isCrisp ? findCrispOptimum(problem) : findNoisyOptimum(problem);
}

/** Every set of causes with every set of paid set-ups, from the smallest set upwards. */
function findCrispOptimum(problem: DiagnosisProblem): number {
  const { causes, checks, setups, goal } = problem;
  const total = causes.reduce((sum, cause) => sum + cause.weight, 0);
  const setSize = 2 ** causes.length;
  const paidSize = 2 ** setups.length;
  const paying = Array.from({ length: paidSize }, (_, mask) =>
    setups.reduce((sum, setup, bit) => sum + (mask & (1 << bit) ? setup.minutes : 0), 0),
  );
  const maskOf = (ids: readonly string[]): number =>
    setups.reduce((mask, setup, bit) => (ids.includes(setup.id) ? mask | (1 << bit) : mask), 0);
  const tests = checks.map((check) => ({
    minutes: check.minutes,
    needs: maskOf(check.setup),
    sets: check.outcomes.map((_, outcome) =>
      causes.reduce(
        (mask, _cause, index) => ((check.likelihood[index]?.[outcome] ?? 0) === 1 ? mask | (1 << index) : mask),
        0,
      ),
    ),
  }));
  const repairs = causes.map((cause) => ({
    minutes: (cause.repairMinutes ?? 0) + problem.proveMinutes,
    needs: maskOf(cause.repairSetup),
  }));
  const mass = new Float64Array(setSize);
  for (let set = 1; set < setSize; set++) {
    for (let index = 0; index < causes.length; index++) {
      if (set & (1 << index)) mass[set] = (mass[set] ?? 0) + (causes[index]?.weight ?? 0) / total;
    }
  }
  const value = new Float64Array(setSize * paidSize);
  for (let paid = paidSize - 1; paid >= 0; paid--) {
    for (let set = 1; set < setSize; set++) {
      const here = mass[set] ?? 0;
      let best = goal === 'repair' ? problem.giveUpMinutes * here : Number.POSITIVE_INFINITY;
      for (const test of tests) {
        let isUseful = true;
        let rest = 0;
        for (const outcome of test.sets) {
          const next = set & outcome;
          if (next === set) isUseful = false;
          rest += value[(paid | test.needs) * setSize + next] ?? 0;
        }
        if (!isUseful) continue;
        // With a set-up still unpaid, a set no smaller than this one never occurs: every outcome is a proper subset.
        best = Math.min(best, (test.minutes + (paying[test.needs & ~paid] ?? 0)) * here + rest);
      }
      if (goal === 'repair') {
        repairs.forEach((repair, index) => {
          if (!(set & (1 << index))) return;
          const next = set & ~(1 << index);
          best = Math.min(
            best,
            (repair.minutes + (paying[repair.needs & ~paid] ?? 0)) * here +
              (value[(paid | repair.needs) * setSize + next] ?? 0),
          );
        });
      }
      value[paid * setSize + set] = best === Number.POSITIVE_INFINITY ? 0 : best;
    }
  }
  return value[setSize - 1] ?? 0;
}

/** Every history of outcomes and failed repairs, by recursion with a memory. */
function findNoisyOptimum(problem: DiagnosisProblem): number {
  const { causes, checks, setups, goal } = problem;
  const total = causes.reduce((sum, cause) => sum + cause.weight, 0);
  const memory = new Map<string, number>();

  const solve = (outcomes: readonly number[], tried: readonly boolean[], belief: readonly number[]): number => {
    const key = `${outcomes.join()}|${tried.map(Number).join()}`;
    const before = memory.get(key);
    if (before !== undefined) return before;
    const mass = belief.reduce((sum, value) => sum + value, 0);
    if (mass === 0) return 0;
    const paid = new Set<string>();
    outcomes.forEach((outcome, check) => {
      if (outcome >= 0) for (const id of checks[check]?.setup ?? []) paid.add(id);
    });
    tried.forEach((wasTried, cause) => {
      if (wasTried) for (const id of causes[cause]?.repairSetup ?? []) paid.add(id);
    });
    const minutesOf = (ids: readonly string[]): number =>
      setups.reduce((sum, setup) => (ids.includes(setup.id) && !paid.has(setup.id) ? sum + setup.minutes : sum), 0);
    let best = goal === 'repair' ? problem.giveUpMinutes * mass : Number.POSITIVE_INFINITY;
    checks.forEach((check, index) => {
      if ((outcomes[index] ?? -1) >= 0) return;
      const rows = check.likelihood.filter((_, cause) => (belief[cause] ?? 0) > 0);
      if (rows.every((row) => row.every((value, outcome) => value === rows[0]?.[outcome]))) return;
      let value = (check.minutes + minutesOf(check.setup)) * mass;
      check.outcomes.forEach((_, outcome) => {
        const next = belief.map((probability, cause) => probability * (check.likelihood[cause]?.[outcome] ?? 0));
        value += solve(outcomes.with(index, outcome), tried, next);
      });
      best = Math.min(best, value);
    });
    if (goal === 'repair') {
      causes.forEach((cause, index) => {
        if (tried[index] === true || cause.repairMinutes === undefined || (belief[index] ?? 0) === 0) return;
        const next = belief.with(index, (belief[index] ?? 0) * (1 - cause.repairSuccess));
        const value =
          (cause.repairMinutes + problem.proveMinutes + minutesOf(cause.repairSetup)) * mass +
          solve(outcomes, tried.with(index, true), next);
        best = Math.min(best, value);
      });
    }
    const answer = best === Number.POSITIVE_INFINITY ? 0 : best;
    memory.set(key, answer);
    return answer;
  };

  return solve(
    checks.map(() => -1),
    causes.map(() => false),
    causes.map((cause) => cause.weight / total),
  );
}

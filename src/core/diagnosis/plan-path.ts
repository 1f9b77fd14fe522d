import { normalise } from './evidence.ts';
import type { PathProblem } from './problem.ts';

export type PathPlanResult =
  { readonly kind: 'plan'; readonly plan: PathPlan } | { readonly kind: 'contradiction'; readonly text: string };

export interface PathPlan {
  /** Probability of each stage. */
  readonly probabilities: readonly number[];
  /** Between this stage and the next, from 0; undefined where no probe separates what is left. */
  readonly nextProbe: number | undefined;
  readonly expectedMinutes: number;
  readonly worstMinutes: number;
  /** Stages that can still be faulty and that no probe left separates, as positions. */
  readonly groups: readonly (readonly number[])[];
}

/**
 * Plans the cheapest search for the one faulty stage of a signal path: a good probe clears every stage before it, a bad one every
 * stage after it. Exact, by dynamic programming over stretches of the path:
 * minutes(first..last) = min over probes k of cost(k) × P(first..last) + minutes(first..k) + minutes(k+1..last),
 * the alphabetic tree of Gilbert and Moore 1959 with a cost for each probe. Probes already made are not made again; a doubtful one
 * only shifts the probabilities. Ties go to the lower probe. Cost: stages³ / 6 steps.
 * @example
 * // eight equal stages, probes of one minute: 3 minutes, first probe 3 (the half split)
 */
export function planPath(problem: PathProblem): PathPlanResult {
  const count = problem.stages.length;
  const probabilities = weighStages(problem);
  if (probabilities === undefined) {
    return { kind: 'contradiction', text: describeContradiction(problem) };
  }
  const isMade = new Set(problem.evidence.map((item) => item.probe));
  const before = new Float64Array(count + 1);
  probabilities.forEach((probability, stage) => {
    before[stage + 1] = (before[stage] ?? 0) + probability;
  });
  const massOf = (first: number, last: number): number => (before[last + 1] ?? 0) - (before[first] ?? 0);
  const liveIn = countLive(probabilities);
  const expected = new Float64Array(count * count);
  const worst = new Float64Array(count * count);
  const best = new Int32Array(count * count).fill(-1);
  for (let length = 2; length <= count; length++) {
    for (let first = 0; first + length <= count; first++) {
      const last = first + length - 1;
      const cell = first * count + last;
      if ((liveIn[last + 1] ?? 0) - (liveIn[first] ?? 0) < 2) continue;
      const mass = massOf(first, last);
      let least = Number.POSITIVE_INFINITY;
      for (let probe = first; probe < last; probe++) {
        if (isMade.has(probe) || !hasLive(liveIn, first, probe) || !hasLive(liveIn, probe + 1, last)) continue;
        const value =
          (problem.probes[probe]?.minutes ?? 0) * mass +
          (expected[first * count + probe] ?? 0) +
          (expected[(probe + 1) * count + last] ?? 0);
        if (value >= least - 1e-12 * Math.abs(least) && least !== Number.POSITIVE_INFINITY) continue;
        least = value;
        best[cell] = probe;
      }
      const probe = best[cell] ?? -1;
      if (probe < 0) continue;
      expected[cell] = least;
      worst[cell] =
        (problem.probes[probe]?.minutes ?? 0) +
        Math.max(worst[first * count + probe] ?? 0, worst[(probe + 1) * count + last] ?? 0);
    }
  }
  const whole = count - 1;
  const nextProbe = best[whole] ?? -1;
  return {
    kind: 'plan',
    plan: {
      probabilities: Array.from(probabilities),
      nextProbe: nextProbe < 0 ? undefined : nextProbe,
      expectedMinutes: expected[whole] ?? 0,
      worstMinutes: worst[whole] ?? 0,
      groups: groupStages(probabilities, isMade),
    },
  };
}

/** Weight of each stage times, for every probe made, how well good (a fault after it) or bad (before it) agrees. */
function weighStages(problem: PathProblem): Float64Array | undefined {
  const logWeights = Float64Array.from(problem.stages, (stage) => Math.log(stage.weight));
  for (let probe = 0; probe < problem.probes.length; probe++) {
    const readings = problem.evidence.filter((item) => item.probe === probe);
    if (readings.length === 0) continue;
    const good = readings.reduce((product, item) => product * (item.likelihood[0] / Math.max(...item.likelihood)), 1);
    const bad = readings.reduce((product, item) => product * (item.likelihood[1] / Math.max(...item.likelihood)), 1);
    for (let stage = 0; stage < logWeights.length; stage++) {
      logWeights[stage] = (logWeights[stage] ?? 0) + Math.log(stage <= probe ? bad : good);
    }
  }
  return normalise(logWeights);
}

/** Names the bad probe and the good one after it; several such pairs, or one probe both good and bad: the first found. */
function describeContradiction({ stages, evidence }: PathProblem): string {
  const nameProbe = (probe: number): string => `the probe after \`${stages[probe]?.id ?? ''}\``;
  for (const bad of evidence.filter((item) => item.likelihood[0] === 0)) {
    const good = evidence.find((item) => item.likelihood[1] === 0 && item.probe >= bad.probe);
    if (good === undefined) continue;
    return `These two answers contradict each other: ${nameProbe(bad.probe)} bad and ${nameProbe(good.probe)} good; re-check the doubtful one`;
  }
  return 'These probes leave no stage that can be faulty: re-check the doubtful one, or the fault is not on this path';
}

function countLive(probabilities: Float64Array): Int32Array {
  const counts = new Int32Array(probabilities.length + 1);
  probabilities.forEach((probability, stage) => {
    counts[stage + 1] = (counts[stage] ?? 0) + (probability > 0 ? 1 : 0);
  });
  return counts;
}

function hasLive(liveIn: Int32Array, first: number, last: number): boolean {
  return (liveIn[last + 1] ?? 0) > (liveIn[first] ?? 0);
}

function groupStages(probabilities: Float64Array, isMade: ReadonlySet<number>): readonly (readonly number[])[] {
  const groups: number[][] = [];
  let isOpen = false;
  probabilities.forEach((probability, stage) => {
    if (probability > 0) {
      const last = groups.at(-1);
      if (isOpen && last !== undefined) last.push(stage);
      else groups.push([stage]);
      isOpen = true;
    }
    if (!isMade.has(stage)) isOpen = false;
  });
  return groups;
}

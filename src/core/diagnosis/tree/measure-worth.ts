import type { FaultTree } from '../../model/fault-tree.ts';
import type { References } from '../../model/library.ts';
import { chooseAction, quick } from '../choose-action.ts';
import { evaluatePolicy, type PolicyValue } from '../evaluate-policy.ts';
import { weighEvidence } from '../evidence.ts';
import {
  buildModel,
  type PlanningModel,
  type PlanningState,
  startState,
  sumSetupMinutes,
  takeAction,
} from '../model.ts';
import type { DiagnosisProblem, Goal } from '../problem.ts';
import { deriveProblem, hypothesisOf, type TreeProblem } from './derive-problem.ts';
import { everythingAtHand } from './tree-checks.ts';
import { followIsolation, followWritten, type WrittenValue } from './written-road.ts';

/** What a tree is worth to somebody who starts at its first node and knows nothing. Minutes are expected working minutes. */
export interface TreeWorth {
  /** Until one end is nearly sure (0.95) or nothing separates what is left, every answer taken as right. */
  readonly isolate: { readonly written: WrittenValue; readonly chosen: WrittenValue };
  /** Until a repair is proved, with answers as reliable as the instruments; giving up counts 240 minutes. */
  readonly repair: RepairWorth;
  readonly separation: Separation;
  /** Ids of checks, or path/stage, that the engine's plan never takes (with a probability of at least one in a thousand). */
  readonly neverPays: readonly string[];
  /** The one change that would help most, as a sentence with the minutes it would save; undefined where none would save half a minute. */
  readonly advice: string | undefined;
}

export interface RepairWorth {
  /** In the order of the file. */
  readonly written: WrittenValue;
  /** In the order that the engine chooses; bounds where the plan was too large to visit. */
  readonly chosen: Pick<PolicyValue, 'expectedMinutes' | 'worstMinutes' | 'isExact' | 'atLeast' | 'atMost'>;
  /** What no order can be below: the fault known from the start, only its repair to do. */
  readonly atLeastMinutes: number;
}

export interface WorthOptions {
  /** States of the engine's plan that are visited before it is estimated. */
  readonly mostStates: number;
}

const leastProbability = 1e-3;
/** Minutes of the check that the advice imagines, and how many pairs it is imagined for. */
const imaginedMinutes = 2;
const mostImagined = 6;
const imaginedCheck = 'imagined';
const leastSavingMinutes = 0.5;

/**
 * Measures a tree: minutes in the order written and in the engine's, how far faults are separated (in the manner of IEEE 1522), which
 * checks never pay, and the pair of causes that a check between them would help most. Cost: `mostStates` steps of the planner, eight times.
 */
export function measureWorth(
  tree: FaultTree,
  references: Pick<References, 'setups' | 'instruments'>,
  { mostStates }: WorthOptions = { mostStates: 300 },
): TreeWorth {
  const separation = measureSeparation(tree, references);
  const start = tree.nodes[0]?.id ?? '';
  const faultless = derive(tree, references, 'isolate');
  const [isolationModel, isolationState] = openProblem(faultless.problem);
  const derived = derive(tree, references, 'repair');
  const [model, state] = openProblem(derived.problem);
  const chosen = evaluatePolicy(model, state, quick, mostStates);
  return {
    isolate: {
      written: followWritten(faultless, isolationModel, isolationState, start),
      chosen: followIsolation(isolationModel, isolationState),
    },
    repair: {
      written: followWritten(derived, model, state, start),
      chosen,
      atLeastMinutes: measureKnownFault(model, state),
    },
    separation,
    neverPays: listNeverTaken(derived),
    advice: findAdvice(derived, separation, chosen.expectedMinutes, mostStates),
  };
}

function derive(tree: FaultTree, references: Pick<References, 'setups' | 'instruments'>, goal: Goal): TreeProblem {
  return deriveProblem(tree, references, {
    bench: everythingAtHand,
    goal,
    isFaultless: goal === 'isolate',
    repaired: [],
    isWorsened: false,
  });
}

function measureKnownFault(model: PlanningModel, state: PlanningState): number {
  return state.belief.reduce((sum, probability, cause) => {
    const own =
      (model.repairMinutes[cause] ?? Number.POSITIVE_INFINITY) +
      sumSetupMinutes(model.setupMinutes, model.repairSetups[cause] ?? 0, 0) +
      (1 - (model.repairSuccess[cause] ?? 0)) * model.giveUpMinutes;
    return sum + probability * Math.min(model.giveUpMinutes, own);
  }, 0);
}

function openProblem(problem: DiagnosisProblem): readonly [PlanningModel, PlanningState] {
  const model = buildModel(problem);
  const posterior = weighEvidence(problem, []);
  const probabilities = posterior.kind === 'posterior' ? posterior.probabilities : new Float64Array();
  return [model, startState(problem, model, probabilities, [])];
}

function listNeverTaken({ problem, checks }: TreeProblem): readonly string[] {
  const [model, start] = openProblem(problem);
  const taken = new Set<number>();
  const open: { readonly state: PlanningState; readonly probability: number }[] = [{ state: start, probability: 1 }];
  while (open.length > 0) {
    const here = open.pop();
    if (here === undefined) break;
    const { action } = chooseAction(model, here.state, quick);
    if (action.kind === 'stop') continue;
    if (action.kind === 'check') taken.add(action.check);
    for (const branch of takeAction(model, here.state, action).branches) {
      const probability = here.probability * branch.probability;
      if (probability >= leastProbability) open.push({ state: branch.state, probability });
    }
  }
  const needed = new Set(checks.filter((_, position) => taken.has(position)).flatMap(({ after }) => after));
  return checks.filter(({ id }, position) => !taken.has(position) && !needed.has(id)).map(({ id }) => id);
}

/** Imagines, for the weightiest pairs that nothing separates, a quick check that does, and takes the pair where that saves most. */
function findAdvice(
  { tree, problem }: TreeProblem,
  { pairs }: Separation,
  minutesNow: number,
  mostStates: number,
): string | undefined {
  let best: { readonly pair: readonly [string, string]; readonly saved: number } | undefined;
  for (const { ends: pair } of pairs.slice(0, mostImagined)) {
    const places = pair.map((id) => problem.causes.findIndex((cause) => cause.id === id));
    const likelihood = problem.causes.map((_, cause) =>
      cause === places[0] ? [1, 0] : cause === places[1] ? [0, 1] : [0.5, 0.5],
    );
    const [model, state] = openProblem({
      ...problem,
      checks: [
        ...problem.checks,
        { id: imaginedCheck, minutes: imaginedMinutes, setup: [], outcomes: ['one', 'other'], likelihood },
      ],
    });
    const saved = minutesNow - evaluatePolicy(model, state, quick, mostStates).expectedMinutes;
    if (saved > (best?.saved ?? leastSavingMinutes)) best = { pair, saved };
  }
  if (best === undefined) return undefined;
  const [first, second] = best.pair.map((id) => hypothesisOf(tree, id)?.title ?? id);
  return `Add a check that separates “${first ?? ''}” and “${second ?? ''}”: one of ${imaginedMinutes} minutes would save about ${Math.round(best.saved)}.`;
}

/** How far the checks of a tree tell its ends apart, in the manner of IEEE 1522 (formulas from memory). Fractions are 0 to 1. */
export interface Separation {
  /** Share of the faults, by how often they come, left in a group of at most one, two, three. */
  readonly isolatedToOne: number;
  readonly isolatedToTwo: number;
  readonly isolatedToThree: number;
  /** Suspects that are left on average when every check has been made. */
  readonly expectedGroupSize: number;
  /** Pairs of ends that no check separates, the weightiest first. */
  readonly pairs: readonly UnseparatedPair[];
  /** Checks, or path/stage, that come out alike for every two ends they speak of. */
  readonly idleChecks: readonly string[];
  /** Of each common end the checks that say nothing of it, on its road or by `shows`: they leave it as likely as it was. */
  readonly silent: readonly { readonly end: string; readonly checks: readonly string[] }[];
}

/** Two ends that every check may leave standing together. */
export interface UnseparatedPair {
  readonly ends: readonly [string, string];
  /** Checks that speak of both, and the outcomes that both may bring: where a word could be taken out, or a check added. */
  readonly alike: readonly { readonly check: string; readonly outcomes: readonly string[] }[];
}

/**
 * Measures which ends the checks separate: two are separated by a check that speaks of both and comes out in no common way.
 * The group of a fault is every end that nothing separates from it. A check that says nothing of an end never separates it.
 * Cost: checks × pairs of ends.
 */
export function measureSeparation(tree: FaultTree, references: Pick<References, 'setups' | 'instruments'>): Separation {
  const { problem, saidRows } = deriveProblem(tree, references, {
    bench: everythingAtHand,
    goal: 'isolate',
    isFaultless: true,
    repaired: [],
    isWorsened: false,
  });
  const ends = problem.causes.flatMap(({ id, weight }, position) =>
    hypothesisOf(tree, id) === undefined ? [] : [{ id, weight, position, group: 1 }],
  );
  const idle = new Set(problem.checks.map(({ id }) => id));
  const pairs: { readonly pair: UnseparatedPair; readonly weight: number }[] = [];
  ends.forEach((first, place) => {
    for (const second of ends.slice(place + 1)) {
      let isSeparated = false;
      const alike: { readonly check: string; readonly outcomes: readonly string[] }[] = [];
      problem.checks.forEach(({ id, outcomes }, check) => {
        const [one, other] = [saidRows[check]?.[first.position], saidRows[check]?.[second.position]];
        if (one === undefined || other === undefined) return;
        if (one.some((probability, outcome) => probability !== other[outcome])) idle.delete(id);
        const common = outcomes.filter((_, outcome) => (one[outcome] ?? 0) > 0 && (other[outcome] ?? 0) > 0);
        if (common.length === 0) isSeparated = true;
        else alike.push({ check: id, outcomes: common });
      });
      if (isSeparated) continue;
      first.group += 1;
      second.group += 1;
      pairs.push({ pair: { ends: [first.id, second.id], alike }, weight: first.weight * second.weight });
    }
  });
  const total = ends.reduce((sum, { weight }) => sum + weight, 0);
  const shareUpTo = (most: number): number =>
    total === 0 ? 0 : ends.reduce((sum, { weight, group }) => sum + (group <= most ? weight : 0), 0) / total;
  return {
    isolatedToOne: shareUpTo(1),
    isolatedToTwo: shareUpTo(2),
    isolatedToThree: shareUpTo(3),
    expectedGroupSize: total === 0 ? 0 : ends.reduce((sum, { weight, group }) => sum + weight * group, 0) / total,
    pairs: pairs.toSorted((first, second) => second.weight - first.weight).map(({ pair }) => pair),
    idleChecks: [...idle],
    silent: ends.flatMap(({ id: end, position }) => {
      const checks = problem.checks.flatMap(({ id }, check) => (saidRows[check]?.[position] === undefined ? [id] : []));
      return hypothesisOf(tree, end)?.chance === 'common' && checks.length > 0 ? [{ end, checks }] : [];
    }),
  };
}

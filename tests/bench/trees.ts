/**
 * What the shipped trees are worth: node tests/bench/trees.ts [--thorough] [TREE …]
 * Minutes to an isolated end and to a proved repair, as written and as the pages suggest. What is suggested is simulated with faults drawn
 * by how common they are and answers as reliable as the instruments. A tree whose order is its safety is asked as written, so its
 * suggested minutes are the written ones. Beside them what no order gets far below: every answer known for nothing, and the fault known.
 * `--thorough` takes the step that the page comes to after a moment; that takes some minutes.
 */
import { readContent } from '#build/library.ts';
import { chooseAction, quick, thorough } from '#core/diagnosis/choose-action.ts';
import { weighEvidence } from '#core/diagnosis/evidence.ts';
import {
  type Action,
  buildModel,
  type PlanningModel,
  type PlanningState,
  startState,
  takeAction,
} from '#core/diagnosis/model.ts';
import { firstOfFixedOrder } from '#core/diagnosis/repair-order.ts';
import { deriveProblem } from '#core/diagnosis/tree/derive-problem.ts';
import { measureWorth } from '#core/diagnosis/tree/measure-worth.ts';
import { everythingAtHand } from '#core/diagnosis/tree/tree-checks.ts';
import type { FaultTree } from '#core/model/fault-tree.ts';
import { createRandom } from '../support/diagnosis/random.ts';
import { drawUnit, simulateRepair, type Unit } from '../support/diagnosis/simulate-repair.ts';

/** Units with a fault for each tree: the mean of all trees is then good to about 0.7 minutes. */
const UNITS = 400;
const effort = process.argv.includes('--thorough') ? thorough : quick;
const named = process.argv.slice(2).filter((argument) => !argument.startsWith('--'));

interface Row {
  readonly isFree: boolean;
  readonly written: number;
  readonly suggested: number;
  readonly answersKnown: number;
  readonly faultKnown: number;
}

const { library } = readContent();
console.log(
  `\n${'tree'.padEnd(30)} to isolate: written (worst)  engine (worst)  to repair: written  suggested        answers known  fault known  to one, two  group  idle, never taken`,
);
const rows = [...library.trees.values()]
  .filter(({ slug }) => named.length === 0 || named.includes(slug))
  .map(printTree);
console.log(`\n${UNITS} units a tree, ${effort === thorough ? 'looking ahead' : 'as at the press of a button'}`);
printMean('all trees', rows);
printMean(
  'asked in the engine’s order',
  rows.filter(({ isFree }) => isFree),
);

function printTree(tree: FaultTree): Row {
  const { isolate, repair, separation, neverPays } = measureWorth(tree, library, { mostStates: 1 });
  const isFree = tree.order !== 'as-written';
  const { suggested, error, answersKnown } = simulate(tree, isFree);
  const row: Row = {
    isFree,
    written: repair.written.expectedMinutes,
    suggested: isFree ? suggested : repair.written.expectedMinutes,
    answersKnown,
    faultKnown: repair.atLeastMinutes,
  };
  const minutes = (value: number): string => value.toFixed(1).padStart(6);
  console.log(
    [
      tree.slug.padEnd(30),
      `${minutes(isolate.written.expectedMinutes)} (${minutes(isolate.written.worstMinutes)})`.padEnd(28),
      `${minutes(isolate.chosen.expectedMinutes)} (${minutes(isolate.chosen.worstMinutes)})`.padEnd(20),
      minutes(row.written).padEnd(12),
      `${minutes(row.suggested)} ${isFree ? `±${error.toFixed(1)}` : '     '} ${share(row.suggested, row.written)}`.padEnd(
        24,
      ),
      minutes(row.answersKnown).padEnd(14),
      minutes(row.faultKnown).padEnd(10),
      `${separation.isolatedToOne.toFixed(2)}, ${separation.isolatedToTwo.toFixed(2)}`.padEnd(12),
      separation.expectedGroupSize.toFixed(2).padEnd(6),
      `${separation.idleChecks.join(' ')}${neverPays.length > 0 ? `, ${neverPays.join(' ')}` : ''}`,
    ].join(' '),
  );
  return row;
}

/** Mean minutes over the same faults: as the engine goes, with its standard error, and with every answer known beforehand for nothing. */
function simulate(
  tree: FaultTree,
  isFree: boolean,
): { readonly suggested: number; readonly error: number; readonly answersKnown: number } {
  const { problem } = deriveProblem(tree, library, {
    bench: everythingAtHand,
    goal: 'repair',
    isFaultless: false,
    repaired: [],
    isWorsened: false,
  });
  const model = buildModel(problem);
  const prior = weighEvidence(problem, []);
  if (prior.kind !== 'posterior') throw new Error('no evidence cannot contradict');
  const start = startState(problem, model, prior.probabilities, []);
  const random = createRandom(tree.slug.length * 1000 + problem.causes.length);
  const units = Array.from({ length: UNITS }, (_, place) =>
    drawUnit(model, prior.probabilities, firstBetween(place / UNITS, (place + 1) / UNITS, random)),
  );
  const choose = remember((state) => chooseAction(model, state, effort).action);
  const times = isFree ? units.map((unit) => simulateRepair(model, start, unit, choose)) : [];
  const mean = average(times);
  const variance = average(times.map((time) => (time - mean) ** 2));
  return {
    suggested: mean,
    error: Math.sqrt(variance / UNITS),
    answersKnown: average(
      units.map((unit) =>
        simulateRepair(model, knowAnswers(model, start, unit), unit, (state) => firstOfFixedOrder(model, state)),
      ),
    ),
  };
}

/** Chance whose first draw lies between two figures: a fault from each share of the causes, so that few units stand for many. */
function firstBetween(from: number, to: number, random: () => number): () => number {
  let isFirst = true;
  return () => {
    const drawn = random();
    const between = isFirst ? from + (to - from) * drawn : drawn;
    isFirst = false;
    return between;
  };
}

/** The state with every check answered, for nothing. */
function knowAnswers(model: PlanningModel, start: PlanningState, { outcomes }: Unit): PlanningState {
  const answered = outcomes.reduce((state, outcome, check) => {
    const { branches } = takeAction(model, state, { kind: 'check', check });
    return branches.find((branch) => branch.outcome === outcome)?.state ?? state;
  }, start);
  return { ...answered, paid: start.paid };
}

/** Chooses once for each state: most units come through the same ones. */
function remember(choose: (state: PlanningState) => Action): (state: PlanningState) => Action {
  const known = new Map<string, Action>();
  return (state) => {
    const key = `${state.belief.map((probability) => Number(probability.toPrecision(11))).join()}|${state.done.join('')}|${state.tried.join('')}`;
    const action = known.get(key) ?? choose(state);
    known.set(key, action);
    return action;
  };
}

function printMean(of: string, some: readonly Row[]): void {
  const mean = (pick: (row: Row) => number): number => average(some.map(pick));
  const written = mean((row) => row.written);
  const suggested = mean((row) => row.suggested);
  const answersKnown = mean((row) => row.answersKnown);
  const faultKnown = mean((row) => row.faultKnown);
  console.log(
    `${some.length} ${of}: mean ${written.toFixed(1)} minutes as written, ${suggested.toFixed(1)} as suggested (${share(suggested, written)}); ` +
      `no order much below ${answersKnown.toFixed(1)} (${share(answersKnown, written)}) with every answer known for nothing, ${faultKnown.toFixed(1)} (${share(faultKnown, written)}) with the fault known`,
  );
}

function share(part: number, whole: number): string {
  return `${((100 * part) / whole).toFixed(1)} %`;
}

function average(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0) / values.length;
}

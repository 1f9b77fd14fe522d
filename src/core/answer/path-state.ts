import { chanceWeights } from '../diagnosis/tree/derive-problem.ts';
import type { FaultTree, SignalPath, Stage } from '../model/fault-tree.ts';
import { type Answer, reservedAnswers } from './answer.ts';
import { findNode, type StageTold, stagesTold, stagesToldBy, stagesUpTo } from '../model/node.ts';
import type { BenchTree } from './bench-tree.ts';
import { judgeAnswer } from './judge-answer.ts';

/** A signal path as the answers leave it. */
export interface PathState {
  readonly stages: readonly StageState[];
  /** Node of the fault where one stage alone is left, or the path's own way on where all of it is good. */
  readonly found: string | undefined;
  /** Two answers that cannot both be true of one fault, in words. */
  readonly contradiction: string | undefined;
}

export interface StageState {
  readonly id: string;
  readonly verdict: 'good' | 'bad' | 'undecided' | 'open';
  /** `cleared`: the signal is good up to here; `suspect`: the fault may lie between this stage and the one before; `after`: behind the fault. */
  readonly stretch: 'cleared' | 'suspect' | 'after';
}

/**
 * What the answers leave of a path: one fault is assumed. A good stage clears itself and all before it, a bad one leaves only itself and
 * those before it, whether it was read there or an answer elsewhere tells it. Which stage to read next is the engine's to say.
 */
export function readPathState(path: SignalPath, answers: readonly Answer[], bench: BenchTree): PathState {
  const verdicts = new Map(path.stages.map(({ id }) => [id, verdictOf(path, id, answers, bench)] as const));
  const before = new Map(path.stages.map(({ id }) => [id, stagesUpTo(path, id)] as const));
  const told = listTold(path, answers, bench);
  const idsWith = (wanted: 'good' | 'bad'): readonly string[] =>
    path.stages
      .map(({ id }) => id)
      .filter(
        (id) =>
          verdicts.get(id) === wanted ||
          told.some(({ stage, isGood }) => stage === id && isGood === (wanted === 'good')),
      );
  const cleared = new Set(idsWith('good').flatMap((id) => [...(before.get(id) ?? [])]));
  const bad = idsWith('bad');
  const left = path.stages
    .map(({ id }) => id)
    .filter((id) => !cleared.has(id) && bad.every((other) => before.get(other)?.has(id) === true));
  const isAllGood = path.stages.every(({ id }) => verdicts.get(id) === 'good');
  const sole = bad.length > 0 && left.length === 1 ? path.stages.find(({ id }) => id === left[0]) : undefined;
  return {
    stages: path.stages.map(({ id }) => ({
      id,
      verdict: verdicts.get(id) ?? 'open',
      stretch: cleared.has(id) ? 'cleared' : left.includes(id) ? 'suspect' : 'after',
    })),
    found: sole?.fault ?? (isAllGood ? path.good : undefined),
    contradiction: left.length > 0 || bad.length === 0 ? undefined : tellContradiction(path, verdicts, before),
  };
}

function verdictOf(path: SignalPath, id: string, answers: readonly Answer[], bench: BenchTree): StageState['verdict'] {
  const answer = answers.find(({ tree, node, stage }) => tree === undefined && node === path.id && stage === id);
  if (answer === undefined) return 'open';
  const judged = judgeAnswer(answer, bench);
  if (judged.kind !== 'word' || judged.word === reservedAnswers.unseen || judged.word === 'sometimes')
    return 'undecided';
  return judged.word === 'good' || judged.word === 'in' ? 'good' : 'bad';
}

/** What the answers to checks tell of the stages of a path. */
export function listTold(path: SignalPath, answers: readonly Answer[], bench: BenchTree): readonly StageTold[] {
  return answers.flatMap((answer) => {
    const node = answer.tree === undefined ? findNode(bench.tree, answer.node) : undefined;
    if (node?.kind !== 'check' || !node.outcomes.some((outcome) => stagesToldBy(outcome).length > 0)) return [];
    const judged = judgeAnswer(answer, bench);
    return judged.kind === 'word'
      ? stagesTold(node, undefined, judged.word).filter((told) => told.path === path.id)
      : [];
  });
}

/**
 * The stage to read first where nothing is known yet: the half split, so that the causes before it weigh as nearly as possible as much as
 * those behind it, the path's own way on among them. Once there are answers the engine says which is next.
 */
export function findFirstStage(path: SignalPath, tree: FaultTree): string | undefined {
  const weigh = (stages: readonly Stage[]): number => stages.reduce((sum, { fault }) => sum + weightOf(fault, tree), 0);
  const whole = weigh(path.stages) + weightOf(path.good, tree);
  const offset = ({ id }: Stage): number => {
    const before = stagesUpTo(path, id);
    return Math.abs(weigh(path.stages.filter((stage) => before.has(stage.id))) - whole / 2);
  };
  return path.stages.toSorted((a, b) => offset(a) - offset(b))[0]?.id;
}

function weightOf(id: string, tree: FaultTree): number {
  const node = findNode(tree, id);
  return chanceWeights[node !== undefined && 'chance' in node ? node.chance : 'occasional'];
}

function tellContradiction(
  { stages }: SignalPath,
  verdicts: ReadonlyMap<string, StageState['verdict']>,
  before: ReadonlyMap<string, ReadonlySet<string>>,
): string {
  const pair = stages
    .filter(({ id }) => verdicts.get(id) === 'bad')
    .flatMap((bad) => {
      const good = stages.find(({ id }) => verdicts.get(id) === 'good' && before.get(id)?.has(bad.id) === true);
      return good === undefined ? [] : [{ bad, good }];
    })[0];
  return pair === undefined
    ? 'These answers leave no single fault on this path: read the doubtful one again, or there are two faults.'
    : `“${pair.bad.title}” is bad, but “${pair.good.title}” after it is good. Read the doubtful one again.`;
}

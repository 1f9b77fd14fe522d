import { planPath } from '../diagnosis/plan-path.ts';
import { chanceWeights } from '../diagnosis/tree/derive-problem.ts';
import { type Answer, reservedAnswers } from './answer.ts';
import type { SignalPath, Stage } from '../model/fault-tree.ts';
import { findNode, stagesUpTo } from '../model/node.ts';
import type { BenchTree } from './bench-tree.ts';
import { judgeAnswer } from './judge-answer.ts';

/** A signal path as the answers leave it. */
export interface PathState {
  readonly stages: readonly StageState[];
  /** Stage to read next: the cheapest search on average; undefined where nothing is left to part. */
  readonly next: string | undefined;
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
 * What the answers to a path's stages leave: one fault is assumed. A good stage clears itself and all before it, a bad one leaves only
 * itself and those before it. The next stage comes from `planPath` on a path without branches, else from the most even split.
 */
export function readPathState(path: SignalPath, answers: readonly Answer[], bench: BenchTree): PathState {
  const verdicts = new Map(path.stages.map(({ id }) => [id, verdictOf(path, id, answers, bench)] as const));
  const before = new Map(path.stages.map(({ id }) => [id, stagesUpTo(path, id)] as const));
  const idsWith = (wanted: StageState['verdict']): readonly string[] =>
    path.stages.map(({ id }) => id).filter((id) => verdicts.get(id) === wanted);
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
    next: sole !== undefined || isAllGood ? undefined : chooseNext(path, verdicts, left, bench),
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

function chooseNext(
  path: SignalPath,
  verdicts: ReadonlyMap<string, StageState['verdict']>,
  left: readonly string[],
  bench: BenchTree,
): string | undefined {
  const { stages } = path;
  const isLine = stages.every(
    ({ from }, index) => from.length === (index === 0 ? 0 : 1) && from[0] === stages[index - 1]?.id,
  );
  if (!isLine) return chooseEvenSplit(path, verdicts, left, bench);
  const planned = planPath({
    kind: 'path',
    stages: [
      ...stages.map(({ id, fault }) => ({ id, weight: weightOf(fault, bench) })),
      { id: path.good, weight: weightOf(path.good, bench) },
    ],
    probes: stages.map(({ minutes }) => ({ minutes })),
    evidence: stages.flatMap(({ id }, probe) => {
      const verdict = verdicts.get(id);
      if (verdict !== 'good' && verdict !== 'bad') return [];
      return [{ probe, likelihood: verdict === 'good' ? ([1, 0] as const) : ([0, 1] as const) }];
    }),
  });
  return planned.kind === 'plan' && planned.plan.nextProbe !== undefined
    ? stages[planned.plan.nextProbe]?.id
    : undefined;
}

/** The unread stage whose cleared share is nearest to half of what is left. */
function chooseEvenSplit(
  path: SignalPath,
  verdicts: ReadonlyMap<string, StageState['verdict']>,
  left: readonly string[],
  bench: BenchTree,
): string | undefined {
  const weigh = (ids: readonly string[]): number =>
    ids.reduce((sum, id) => sum + weightOf(path.stages.find((stage) => stage.id === id)?.fault ?? '', bench), 0);
  const whole = weigh(left);
  const offset = ({ id }: Stage): number =>
    Math.abs(weigh(left.filter((one) => stagesUpTo(path, id).has(one))) - whole / 2);
  return path.stages
    .filter(({ id }) => left.includes(id) && verdicts.get(id) === 'open')
    .toSorted((a, b) => offset(a) - offset(b))[0]?.id;
}

function weightOf(id: string, { tree }: BenchTree): number {
  const node = findNode(tree, id);
  return node !== undefined && 'chance' in node ? chanceWeights[node.chance] : chanceWeights.occasional;
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

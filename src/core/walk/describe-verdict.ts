import { describeJudgement } from '../reading/judge-reading.ts';
import { isWord } from '../share/answer-value.ts';
import type { Answer } from '../share/link-state.ts';
import { type BenchTree, judgeAnswer, targetAt } from './judge-answer.ts';

/**
 * What the reading in an answer comes to, in one sentence: `Low.`, `Too close to call: low or in range.` Where a person decided over a
 * reading that alone says something else, that is said. Undefined where no reading is judged: a plain word, readings of neighbours that
 * are only compared with each other, a check without limits.
 */
export function describeVerdict(answer: Answer, bench: BenchTree): string | undefined {
  if ((answer.readings?.length ?? 0) > 1) return undefined;
  if (targetAt(bench, answer.node, answer.stage) === undefined) return undefined;
  const judged = judgeAnswer(answer, bench);
  if (judged.kind === 'nothing') return 'Does not fit this target.';
  const judgement = judged.judgement?.kind === 'judgement' ? judged.judgement : undefined;
  if (judgement === undefined) return undefined;
  if (!isWord(answer.value)) return describeJudgement(judgement);
  return judgement.verdict === answer.value
    ? undefined
    : `Decided by hand; the reading alone: ${describeJudgement(judgement).toLowerCase()}`;
}

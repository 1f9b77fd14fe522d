import { findNode } from '#core/model/node.ts';
import { printWord } from '#core/model/target-text.ts';
import { parseReading } from '#core/quantity/parse-reading.ts';
import { printReading } from '#core/quantity/reading.ts';
import { describeJudgement } from '#core/reading/judge-reading.ts';
import { findAnswerText, sayButton } from '#core/answer/say.ts';
import { type Answer, isWord } from '#core/answer/answer.ts';
import { type BenchTree, targetAt } from '#core/answer/bench-tree.ts';
import { judgeAnswer, wayOn } from '#core/answer/judge-answer.ts';
import type { TellAnswer } from './path-so-far.ts';

/** Says answers as the sheet does: the sentence of the button pressed, or the reading with its verdict. */
export function makeTeller(bench: BenchTree): TellAnswer {
  return (answer) => (answer.tree === undefined ? tell(answer, bench) : undefined);
}

/** Where an answer leads, readings judged; undefined where the reader stays. */
export function wayOfAnswer(answer: Answer, bench: BenchTree): string | undefined {
  return wayOn(answer, bench);
}

function tell(answer: Answer, bench: BenchTree): string | undefined {
  const node = findNode(bench.tree, answer.node);
  if (isWord(answer.value)) {
    const says = node?.kind === 'check' ? sayButton(node, answer.value) : undefined;
    const stage = node?.kind === 'path' ? node.stages.find(({ id }) => id === answer.stage)?.title : undefined;
    if (stage !== undefined) return `${stage}: ${printWord(answer.value).toLowerCase()}`;
    if (says === undefined) return undefined;
    const behind = answer.readings ?? [];
    return behind.length === 0 ? says : `${says} (read ${behind.map((text) => print(text, answer, bench)).join(', ')})`;
  }
  if (answer.readings !== undefined) return `${answer.readings.length} readings, not decided yet`;
  const judged = judgeAnswer(answer, bench);
  const figure = print(answer.value, answer, bench);
  if (judged.kind === 'nothing') return `${findAnswerText(answer)}: says nothing here`;
  if (judged.kind === 'word') return `${figure}: ${printWord(judged.word).toLowerCase()}`;
  return `${figure}: ${judged.judgement.kind === 'judgement' ? describeJudgement(judged.judgement).toLowerCase().replace(/\.$/, '') : ''}`;
}

function print(text: string, { node, stage }: Answer, bench: BenchTree): string {
  const target = targetAt(bench, node, stage);
  const parsed = target === undefined ? undefined : parseReading(text, target);
  return parsed?.kind === 'reading' ? printReading(parsed.reading) : text;
}

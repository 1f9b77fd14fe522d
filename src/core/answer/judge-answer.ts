import { sayAnswer } from './say.ts';
import { printWord } from '../model/target-text.ts';
import { type BenchTree, targetAt } from './bench-tree.ts';
import { type Answer, isWord, readingsIn } from './answer.ts';
import type { Check, FaultTree, Outcome } from '../model/fault-tree.ts';
import { findNode, isHandOverForSafety } from '../model/node.ts';
import { describeJudgement, instrumentFor, judgeWith, readEntry } from '../reading/judge-reading.ts';
import type { JudgedText } from '../reading/judgement.ts';

/** What an answer comes to. */
export type JudgedAnswer =
  /** A word was chosen, by hand or by the reading. */
  | { readonly kind: 'word'; readonly word: string; readonly judgement: JudgedText | undefined }
  /** A reading that is too close to call, or not to be trusted: an answer, but no way on. */
  | { readonly kind: 'undecided'; readonly judgement: JudgedText }
  /** It says nothing here: the check has no target, the stage is unknown, the text is no reading. */
  | { readonly kind: 'nothing'; readonly text: string };

/**
 * What an answer of the bench's own tree comes to. A word stands as it is, even over a reading behind it: a person decided.
 * A reading is judged with the instrument it was taken with, by the unit's limits. Never throws.
 */
export function judgeAnswer(answer: Answer, bench: BenchTree): JudgedAnswer {
  const target = targetAt(bench, answer.node, answer.stage);
  const texts = readingsIn(answer);
  const judgement =
    texts.length === 0 || target === undefined
      ? undefined
      : judgeWith(readEntry(texts, target), target, answer.instrument, bench.references.instrumentClasses);
  if (isWord(answer.value)) return { kind: 'word', word: answer.value, judgement };
  if (target === undefined) return { kind: 'nothing', text: 'A figure does not answer this check.' };
  if (judgement === undefined) return { kind: 'nothing', text: '' };
  if (judgement.kind === 'problem') return { kind: 'nothing', text: judgement.problem.message };
  if (judgement.verdict === 'too-close') return { kind: 'undecided', judgement };
  return { kind: 'word', word: judgement.verdict, judgement };
}

/** The word that an answer comes to, its reading judged; undefined where it decides nothing. */
export function decideWord(answer: Answer, bench: BenchTree): string | undefined {
  const judged = judgeAnswer(answer, bench);
  return judged.kind === 'word' ? judged.word : undefined;
}

/** What was answered and what it comes to, in one line: `In range`, `4.71 V: low`, `amplifier input pin: bad`. */
export function sayJudged(answer: Answer, bench: BenchTree): string {
  const node = answer.tree === undefined ? findNode(bench.tree, answer.node) : undefined;
  if (isWord(answer.value)) {
    const stage = node?.kind === 'path' ? node.stages.find(({ id }) => id === answer.stage)?.title : undefined;
    return stage === undefined ? sayAnswer(answer, bench) : `${stage}: ${printWord(answer.value).toLowerCase()}`;
  }
  if (answer.tree !== undefined) return sayAnswer(answer);
  if (areNeighbours(answer, bench)) return `${readingsIn(answer).length} readings, not decided yet`;
  const judged = judgeAnswer(answer, bench);
  const said = sayAnswer(answer, bench);
  if (judged.kind === 'nothing') return `${said}: says nothing here`;
  if (judged.kind === 'word') return `${said}: ${printWord(judged.word).toLowerCase()}`;
  const { judgement } = judged;
  return judgement.kind === 'judgement'
    ? `${said}: ${describeJudgement(judgement).toLowerCase().replace(/\.$/, '')}`
    : said;
}

/**
 * What the reading in an answer comes to, in one sentence: `Low.`, `Too close to call: low or in range.` Where a person decided over a
 * reading that alone says something else, that is said. Undefined where no reading is judged: a plain word, readings of neighbours that
 * are only compared with each other, a check without limits.
 */
export function describeVerdict(answer: Answer, bench: BenchTree): string | undefined {
  const target = targetAt(bench, answer.node, answer.stage);
  if (target === undefined || (target.computed === undefined && readingsIn(answer).length > 1)) return undefined;
  const judged = judgeAnswer(answer, bench);
  if (judged.kind === 'nothing') return 'Does not fit this target.';
  const judgement = judged.judgement?.kind === 'judgement' ? judged.judgement : undefined;
  if (judgement === undefined) return undefined;
  if (!isWord(answer.value)) return describeJudgement(judgement);
  return judgement.verdict === answer.value
    ? undefined
    : `Decided by hand; the reading alone: ${describeJudgement(judgement).toLowerCase()}`;
}

/** Readings of equal neighbours, not decided yet: several without a word, at a check whose target takes one. */
export function areNeighbours(answer: Answer, bench: BenchTree): boolean {
  if (isWord(answer.value)) return false;
  return readingsIn(answer).length > 1 && targetAt(bench, answer.node, answer.stage)?.computed === undefined;
}

/**
 * The answer to take where a reading leaves open which of `bands` it is, and one of them hands over because of a danger; undefined where
 * none does, or the node is no check.
 */
export function findSafeAnswer(tree: FaultTree, node: string, bands: readonly string[]): Outcome | undefined {
  const check = findNode(tree, node);
  return check?.kind === 'check' ? check.outcomes.find((outcome) => isSafe(outcome, bands, tree)) : undefined;
}

function isSafe({ when, to }: Check['outcomes'][number], bands: readonly string[], tree: FaultTree): boolean {
  const end = findNode(tree, to);
  return end !== undefined && isHandOverForSafety(end) && when.some((word) => bands.includes(word));
}

/**
 * The instrument behind an answer: the one it names, else for a reading the one it is judged with and that its field shows under “Read
 * with”. Undefined for a word without a reading, and where no class fits.
 */
export function nameInstrument(answer: Answer, bench: BenchTree): string | undefined {
  if (answer.instrument !== undefined) return answer.instrument;
  const texts = readingsIn(answer);
  const target = targetAt(bench, answer.node, answer.stage);
  if (texts.length === 0 || target === undefined) return undefined;
  const entry = readEntry(texts, target);
  if (entry.kind !== 'readings') return undefined;
  return instrumentFor(entry, target, undefined, bench.references.instrumentClasses)?.slug;
}

import type { FaultTree } from '../../model/fault-tree.ts';
import type { InstrumentClass } from '../../model/instrument-class.ts';
import { findNode } from '../../model/links.ts';
import type { References } from '../../model/library.ts';
import type { Target } from '../../model/target.ts';
import { assumeInstrument, measures } from '../../reading/assume-instrument.ts';
import { judgeText } from '../../reading/judge-reading.ts';
import type { JudgedText } from '../../reading/judgement.ts';
import { parseReading } from '../../quantity/parse-reading.ts';
import { valueIn } from '../../quantity/reading.ts';
import type { Evidence } from '../problem.ts';
import type { TreeCheck } from './tree-checks.ts';

/** An answer as a link carries it: an outcome word or a reading, at a check or at a stage of a path. */
export interface RawAnswer {
  readonly node: string;
  readonly stage: string | undefined;
  readonly value: string;
}

/** An answer that was understood. */
export interface ReadAnswer {
  readonly answer: RawAnswer;
  /** Outcome word that the answer amounts to; undefined where the reading is too close to call or says nothing yet. */
  readonly word: string | undefined;
  /** What the engine takes from it, one piece for each check it speaks of; none where it is no evidence. */
  readonly evidence: readonly Evidence[];
  /** The judgement of a reading; undefined for a word. */
  readonly judged: JudgedText | undefined;
}

export interface ReadAnswers {
  readonly read: readonly ReadAnswer[];
  /** What was not understood, one sentence each; the rest counts all the same. */
  readonly problems: readonly string[];
}

export interface AnswerReader {
  readonly tree: FaultTree;
  readonly checks: readonly TreeCheck[];
  /** A board's own limits already in place. */
  readonly targets: ReadonlyMap<string, Target>;
  readonly instrumentClasses: References['instrumentClasses'];
  /** The class the readings were taken with; undefined: what is assumed for each target. */
  readonly instrument: InstrumentClass | undefined;
}

/** Said of a check that was watched without the fault showing itself: no evidence at all. */
export const NOT_SEEN = 'not-seen';
const GOOD_WORDS: ReadonlySet<string> = new Set(['in', 'good']);

/**
 * Reads answers as evidence. A reading is judged and joins as the probabilities of its bands (virtual evidence); a doubtful one that fools
 * people (`isEvidence` false) says nothing. `sometimes` and `3-of-8` are what was seen at least once; not seen is no evidence.
 * Nothing throws: an unknown check, word or reading is told in `problems`.
 */
export function readAnswers(answers: readonly RawAnswer[], reader: AnswerReader): ReadAnswers {
  const problems: string[] = [];
  const read = answers.flatMap((answer): ReadAnswer[] => {
    const result = readAnswer(answer, reader);
    if (typeof result !== 'string') return [result];
    problems.push(result);
    return [];
  });
  return { read, problems };
}

function readAnswer(answer: RawAnswer, reader: AnswerReader): ReadAnswer | string {
  const node = findNode(reader.tree, answer.node);
  if (node === undefined || (node.kind !== 'check' && node.kind !== 'path')) {
    return `There is no check “${show(answer.node)}” in this tree.`;
  }
  const value = answer.value.trim();
  if (value === NOT_SEEN) return { answer, word: undefined, evidence: [], judged: undefined };
  if (node.kind === 'path') return readStage(answer, node.id, value, reader);
  const check = reader.checks.find(({ id }) => id === node.id);
  if (check === undefined) return `There is no check “${show(answer.node)}” in this tree.`;
  const word = /^\d+-of-\d+$/.test(value) ? 'sometimes' : value;
  if (check.words.includes(word)) {
    return {
      answer,
      word,
      evidence: [{ kind: 'outcome', check: check.id, outcome: word }],
      judged: undefined,
    };
  }
  // Seen now and then where no cause says what that means: noted, and evidence of nothing.
  if (word === 'sometimes') return { answer, word, evidence: [], judged: undefined };
  const target = node.target === undefined ? undefined : reader.targets.get(node.target.target);
  if (target === undefined) {
    return `“${show(value)}” is no answer of “${node.title}”; expected ${check.words.join(', ')}.`;
  }
  const judged = judge(value, target, reader);
  if (judged.kind === 'problem') return `“${show(value)}” at “${node.title}”: ${judged.problem.message}`;
  const likelihood = check.words.map(
    (name) => judged.probabilities.find(({ band }) => band === name)?.probability ?? (judged.verdict === name ? 1 : 0),
  );
  const isUsable = judged.isEvidence && likelihood.some((probability) => probability > 0);
  return {
    answer,
    word: judged.verdict === 'too-close' ? undefined : judged.verdict,
    evidence: isUsable ? [{ kind: 'reading', check: check.id, likelihood }] : [],
    judged,
  };
}

function readStage(answer: RawAnswer, path: string, value: string, reader: AnswerReader): ReadAnswer | string {
  const stages = reader.checks.filter((check) => check.node.id === path);
  if (answer.stage === undefined) return readWholePath(answer, path, value, stages);
  const check = stages.find(({ stage }) => stage?.id === answer.stage);
  if (check === undefined) return `There is no stage “${show(answer.stage)}” in “${show(path)}”.`;
  const outcome = GOOD_WORDS.has(value) ? 'in' : 'bad';
  const target = check.stage?.target === undefined ? undefined : reader.targets.get(check.stage.target);
  const isWord = GOOD_WORDS.has(value) || value === 'bad' || target?.bands.some(({ name }) => name === value) === true;
  if (isWord || target === undefined) {
    if (!isWord) return `“${show(value)}” is no answer of a stage; expected in or bad.`;
    return {
      answer,
      word: outcome,
      evidence: [{ kind: 'outcome', check: check.id, outcome }],
      judged: undefined,
    };
  }
  const judged = judge(value, target, reader);
  if (judged.kind === 'problem') return `“${show(value)}” at “${check.stage?.title ?? ''}”: ${judged.problem.message}`;
  const good = judged.probabilities.find(({ band }) => band === 'in')?.probability ?? 0;
  return {
    answer,
    word: judged.verdict === 'too-close' ? undefined : judged.verdict === 'in' ? 'in' : 'bad',
    evidence: judged.isEvidence ? [{ kind: 'reading', check: check.id, likelihood: [good, 1 - good] }] : [],
    judged,
  };
}

/** A path answered as a whole: good to the end, or the first stage that is bad (every stage before it then being good). */
function readWholePath(
  answer: RawAnswer,
  path: string,
  value: string,
  stages: readonly TreeCheck[],
): ReadAnswer | string {
  const known = stages.map(({ stage }) => stage?.id ?? '');
  const place = value === 'good' ? known.length : known.indexOf(value);
  if (place < 0) return `“${show(value)}” is no answer of “${show(path)}”; expected good or ${known.join(', ')}.`;
  const evidence = stages
    .slice(0, place + 1)
    .map((check, index): Evidence => ({ kind: 'outcome', check: check.id, outcome: index === place ? 'bad' : 'in' }));
  return { answer, word: value, evidence, judged: undefined };
}

function judge(text: string, target: Target, reader: AnswerReader): JudgedText {
  const parsed = parseReading(text, target);
  const size = parsed.kind === 'reading' && parsed.reading.kind === 'number' ? valueIn(parsed.reading, target.unit) : 0;
  const chosen = reader.instrument;
  const instrument =
    chosen !== undefined && measures(chosen, target)
      ? chosen
      : assumeInstrument(target, reader.instrumentClasses, size);
  return judgeText(text, target, instrument, [...reader.instrumentClasses.values()]);
}

function show(text: string): string {
  return text.length > 40 ? `${text.slice(0, 40)}…` : text;
}

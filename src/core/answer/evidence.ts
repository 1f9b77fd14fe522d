import type { Evidence } from '../diagnosis/problem.ts';
import type { ReadAnswer } from '../diagnosis/tree/written-road.ts';
import type { TreeCheck } from '../diagnosis/tree/tree-checks.ts';
import { type Answer, readShare, reservedAnswers, shorten } from './answer.ts';
import type { FaultTree } from '../model/fault-tree.ts';
import type { Unit } from '../model/library.ts';
import { findNode } from '../model/node.ts';
import type { JudgedText } from '../reading/judgement.ts';
import type { BenchTree } from './bench-tree.ts';
import { judgeAnswer } from './judge-answer.ts';
import { sayAnswer } from './say.ts';

export interface ReadAnswers {
  readonly read: readonly ReadAnswer[];
  /** What was not understood, one sentence each; the rest counts all the same. */
  readonly problems: readonly string[];
}

/**
 * What is answered by where the mains is, and need not be asked: with the mains inside the case there is no brick, so the fault does not
 * go with one (`swap`, whose outcome is then `stays`). Empty where the mains is outside or nobody said. What the unit's file says of its
 * supply goes first: of two boxes one may have a brick and the other the mains inside.
 */
export function answersOfMains(
  tree: FaultTree,
  isMainsInside: boolean,
  supply: Unit['supplyKind'] = 'unknown',
): readonly ReadAnswer[] {
  if (supply === 'unknown' ? !isMainsInside : supply.endsWith('-brick')) return [];
  return tree.nodes.flatMap((node): readonly ReadAnswer[] =>
    node.kind === 'check' && /\bbrick\b/iu.test(node.swap ?? '')
      ? [
          {
            node: node.id,
            stage: undefined,
            said: 'no brick: the mains is inside',
            word: 'stays',
            evidence: [{ kind: 'outcome', check: node.id, outcome: 'stays' }],
          },
        ]
      : [],
  );
}

const GOOD_WORDS: ReadonlySet<string> = new Set(['in', 'good']);

/**
 * Reads the answers of the bench's own tree as evidence for the engine. A word is taken as said, with the check's own reliability behind it;
 * a reading joins as the probabilities of its bands (virtual evidence), unless it is one that fools people, which says nothing yet.
 * `sometimes` and `3-of-8` count as seen; `unseen` is no evidence. Nothing throws: what is not understood is told in `problems`.
 */
export function readAnswers(answers: readonly Answer[], bench: BenchTree, checks: readonly TreeCheck[]): ReadAnswers {
  const problems: string[] = [];
  const read = answers
    .filter(({ tree }) => tree === undefined)
    .flatMap((answer): ReadAnswer[] => {
      const result = readAnswer(answer, bench, checks);
      if (typeof result !== 'string') return [result];
      problems.push(result);
      return [];
    });
  return { read, problems };
}

function readAnswer(answer: Answer, bench: BenchTree, checks: readonly TreeCheck[]): ReadAnswer | string {
  const { node: id, stage } = answer;
  const node = findNode(bench.tree, id);
  const ofNode = checks.filter((check) => check.node.id === id);
  if (node === undefined || ofNode.length === 0) return `There is no check “${shorten(id)}” in this tree.`;
  const tell = (word: string | undefined, evidence: readonly Evidence[]): ReadAnswer => ({
    node: id,
    stage,
    said: sayAnswer(answer),
    word,
    evidence,
  });
  const judged = judgeAnswer(answer, bench);
  if (judged.kind === 'nothing') return `“${shorten(answer.value)}” at “${node.title}”: ${judged.text}`;
  if (judged.kind === 'word' && judged.word === reservedAnswers.unseen) return tell(undefined, []);
  if (node.kind === 'path' && stage === undefined) {
    const places = readWholePath(judged.kind === 'word' ? judged.word : '', ofNode);
    return places === undefined
      ? `“${shorten(answer.value)}” is not an answer to “${node.title}”; expected good or the first bad stage.`
      : tell(judged.kind === 'word' ? judged.word : undefined, places);
  }
  const check = ofNode.find((candidate) => candidate.stage?.id === stage);
  if (check === undefined) return `There is no stage “${shorten(stage ?? '')}” in “${node.title}”.`;
  // What was read stands as evidence by its probabilities, not by its verdict; a word that a person chose over it counts as chosen.
  const reading = 'judgement' in judged && answer.value !== judgedWord(judged) ? judged.judgement : undefined;
  const word = toWord(judged.kind === 'word' ? judged.word : undefined, check);
  if (reading !== undefined) return tell(word, weighReading(reading, check));
  if (word === undefined) return tell(undefined, []);
  if (check.words.includes(word)) return tell(word, [{ kind: 'outcome', check: check.id, outcome: word }]);
  // Seen now and then where no cause says what that means: noted, and evidence of nothing.
  if (word === reservedAnswers.sometimes) return tell(word, []);
  return `“${shorten(answer.value)}” is not an answer to “${node.title}”; expected ${check.words.join(', ')}.`;
}

function judgedWord(judged: ReturnType<typeof judgeAnswer>): string | undefined {
  return judged.kind === 'word' ? judged.word : undefined;
}

function toWord(word: string | undefined, check: TreeCheck): string | undefined {
  if (word === undefined) return undefined;
  if (readShare(word) !== undefined) return reservedAnswers.sometimes;
  if (check.stage === undefined || word === reservedAnswers.sometimes) return word;
  return GOOD_WORDS.has(word) ? 'in' : 'bad';
}

function weighReading(judged: JudgedText, check: TreeCheck): readonly Evidence[] {
  if (judged.kind === 'problem' || !judged.isEvidence) return [];
  const of = (band: string): number =>
    judged.probabilities.find((one) => one.band === band)?.probability ?? (judged.verdict === band ? 1 : 0);
  const likelihood = check.stage === undefined ? check.words.map(of) : [of('in'), 1 - of('in')];
  if (!likelihood.some((probability) => probability > 0)) return [];
  return [{ kind: 'reading', check: check.id, likelihood }];
}

/** A path answered as a whole: good to the end, or the first stage that is bad, every stage before it then being good. */
function readWholePath(word: string, stages: readonly TreeCheck[]): readonly Evidence[] | undefined {
  const known = stages.map(({ stage }) => stage?.id ?? '');
  const place = word === 'good' ? known.length : known.indexOf(word);
  if (place < 0) return undefined;
  return stages
    .slice(0, place + 1)
    .map((check, index): Evidence => ({ kind: 'outcome', check: check.id, outcome: index === place ? 'bad' : 'in' }));
}

import { findNode, linksFrom } from '../model/links.ts';
import { openEnds } from '../model/open-ends.ts';
import type { Check, FaultTree, SignalPath, TreeNode } from '../model/fault-tree.ts';
import type { InstrumentClass } from '../model/instrument-class.ts';
import { printHealthy, printWord } from '../model/target-text.ts';
import type { Target } from '../model/target.ts';
import { parseReading } from '../quantity/parse-reading.ts';
import { printReading } from '../quantity/print-reading.ts';
import { type Reading, valueIn } from '../quantity/reading.ts';
import { assumeInstrument, measures } from '../reading/assume-instrument.ts';
import { describeJudgement, judgeReading } from '../reading/judge-reading.ts';
import type { Judgement } from '../reading/judgement.ts';
import { findAnswerText } from './answer-text.ts';
import type { Answer, LinkState } from './link-state.ts';
import type { DiagnosisReport, ReportCaution, ReportEnd, ReportLine } from './report.ts';

/** What a report is made of. */
export interface ReportSource {
  readonly tree: FaultTree;
  /** Targets by slug, a board's own limits already in place. */
  readonly targets: ReadonlyMap<string, Target>;
  /** Classes of instruments by slug: the one that the state names, or one that fits, took the readings. */
  readonly classes: ReadonlyMap<string, InstrumentClass>;
  readonly state: LinkState;
  /** The node whose page this is, or undefined on the page of the whole tree: then the answers say where one stands. */
  readonly node: string | undefined;
  readonly unit: string;
  readonly symptom: string;
  readonly notes: string;
  readonly cautions: readonly ReportCaution[];
  readonly link: string;
}

/** A diagnosis in words: each answer with its target and verdict, and the cause or what is still open. */
export function makeReport(source: ReportSource): DiagnosisReport {
  const { tree, state, unit, symptom, notes, cautions, link } = source;
  return {
    title: tree.title,
    unit,
    symptom,
    lines: state.answers.map((answer) => describeAnswer(answer, source)),
    end: describePlace(tree, findNode(tree, source.node ?? findStanding(source))),
    asked: state.ask.map((id) => findNode(tree, id)?.title ?? id),
    cautions,
    notes,
    link,
  };
}

/**
 * Where the answers lead: the node behind the last one given in this tree; that check itself where its reading is too close to
 * call; the tree's first node where nothing was answered.
 */
export function findStanding(source: Pick<ReportSource, 'tree' | 'state' | 'targets' | 'classes'>): string {
  const { tree, state } = source;
  const last = state.answers.findLast((answer) => answer.tree === undefined && findNode(tree, answer.node));
  const asked = last && findNode(tree, last.node);
  if (last === undefined || asked === undefined) return tree.nodes[0]?.id ?? '';
  const word = last.stage ?? (asked.kind === 'check' ? judgeAnswer(last.value, asked, source)?.verdict : last.value);
  return linksFrom(asked).find(({ words }) => words.includes(word ?? last.value))?.to ?? asked.id;
}

function describePlace(tree: FaultTree, node: TreeNode | undefined): ReportEnd {
  if (node?.kind === 'cause') return { kind: 'cause', title: node.title };
  if (node?.kind === 'elsewhere' || node?.kind === 'hand-over') return { kind: 'other', title: node.title };
  const from = node?.id ?? tree.nodes[0]?.id ?? '';
  return { kind: 'open', titles: openEnds(tree, from).map(({ title }) => title) };
}

function describeAnswer(answer: Answer, source: ReportSource): ReportLine {
  const node = answer.tree === undefined ? findNode(source.tree, answer.node) : undefined;
  if (node?.kind === 'check') return describeReading(answer.value, node, source);
  if (node?.kind === 'path') return describeStage(answer, node, source);
  const title = [answer.tree, answer.node].filter((part) => part !== undefined).join(': ');
  return { title: title.replaceAll('-', ' '), said: findAnswerText(answer), target: undefined, verdict: undefined };
}

function describeReading(value: string, check: Check, source: ReportSource): ReportLine {
  const target = check.target === undefined ? undefined : source.targets.get(check.target.target);
  const { title } = check;
  if (target === undefined) return { title, said: sayWord(value, check), target: undefined, verdict: undefined };
  const healthy = printHealthy(target);
  if (isWord(value)) return { title, said: printWord(value), target: healthy, verdict: undefined };
  const parsed = parseReading(value, target);
  if (parsed.kind === 'problem')
    return { title, said: value, target: healthy, verdict: 'Does not fit this target any more.' };
  const judgement = judgeAnswer(value, check, source);
  const verdict = judgement === undefined ? undefined : describeJudgement(judgement);
  return { title, said: printReading(parsed.reading), target: healthy, verdict };
}

/** What a reading comes to, or undefined for a word and for what is no reading of this check's target. */
function judgeAnswer(
  value: string,
  check: Check,
  source: Pick<ReportSource, 'state' | 'targets' | 'classes'>,
): Judgement | undefined {
  const target = check.target === undefined ? undefined : source.targets.get(check.target.target);
  if (target === undefined || isWord(value)) return undefined;
  const parsed = parseReading(value, target);
  if (parsed.kind === 'problem') return undefined;
  const judged = judgeReading(parsed.reading, target, findInstrument(parsed.reading, target, source));
  return judged.kind === 'judgement' ? judged : undefined;
}

function findInstrument(
  reading: Reading,
  target: Target,
  { state, classes }: Pick<ReportSource, 'state' | 'classes'>,
): InstrumentClass | undefined {
  const chosen = state.instrument === undefined ? undefined : classes.get(state.instrument);
  if (chosen !== undefined && measures(chosen, target)) return chosen;
  return assumeInstrument(target, classes, valueIn(reading, target.unit));
}

function describeStage({ stage, value }: Answer, path: SignalPath, { targets }: ReportSource): ReportLine {
  const found = path.stages.find(({ id }) => id === stage);
  if (stage === undefined)
    return { title: path.title, said: value === 'good' ? 'Good to the end' : printWord(value), ...unjudged };
  const target = found?.target === undefined ? undefined : targets.get(found.target);
  return {
    title: `${path.title}: ${found?.title ?? stage.replaceAll('-', ' ')}`,
    said: value === 'bad' ? 'First bad here' : printWord(value),
    target: target === undefined ? undefined : printHealthy(target),
    verdict: undefined,
  };
}

const unjudged = { target: undefined, verdict: undefined } as const;

/** The words of the button that was pressed, where it stands for this answer alone. */
function sayWord(value: string, { outcomes }: Check): string {
  const outcome = outcomes.find(({ when }) => when.includes(value));
  return outcome?.when.length === 1 && outcome.says !== undefined ? outcome.says : printWord(value);
}

function isWord(value: string): boolean {
  return /^[a-z]/.test(value);
}

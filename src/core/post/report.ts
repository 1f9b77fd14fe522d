import { type Answer, isWord, type LinkState } from '../answer/answer.ts';
import { type BenchTree, targetAt } from '../answer/bench-tree.ts';
import { decideWord, describeVerdict } from '../answer/judge-answer.ts';
import { leadsTo, openAsked } from '../answer/lead.ts';
import { sayAnswer } from '../answer/say.ts';
import { type AssessedCause, listOpenCauses } from '../diagnosis/tree/assess-tree.ts';
import type { FaultTree, SignalPath, TreeNode } from '../model/fault-tree.ts';
import { findNode, waysOf, isStep } from '../model/node.ts';
import { printHealthy, printWord } from '../model/target-text.ts';
import { type Severity, severities, severityWords } from '../model/library.ts';
import { type PostBlock, type PostFormat, type PostSpan, writeBlocks } from './blocks.ts';

/** A diagnosis as it is told to someone else: everything already in words. Texts of a person are taken as they come. */
export interface DiagnosisReport {
  /** The symptom family: title of the tree. */
  readonly title: string;
  /** The unit, as its owner names it; empty where nothing was said. */
  readonly unit: string;
  /** What it does, in the owner's words; empty where nothing was said. */
  readonly symptom: string;
  /** What the writer wants to know, in one sentence; empty where the post asks what such a diagnosis asks. */
  readonly question: string;
  /** In the order of answering. */
  readonly lines: readonly ReportLine[];
  readonly end: ReportEnd;
  /** Repairs that did not cure, by title, in order; empty where none. */
  readonly did: readonly string[];
  /** Checks that the writer asks for, by title; empty where none. */
  readonly asked: readonly string[];
  readonly cautions: readonly ReportCaution[];
  /** Anything else the owner wants to say; empty where nothing. */
  readonly notes: string;
  /** What the site calls itself. */
  readonly site: string;
  /** Absolute address of exactly this state. */
  readonly link: string;
}

/** One answer. */
export interface ReportLine {
  /** The check, as its page calls it. */
  readonly title: string;
  /** What was read or seen: `4.71 V`, `Low`. */
  readonly said: string;
  /** What a healthy unit reads, or undefined where there is no number. */
  readonly target: string | undefined;
  /** What the reading comes to, or undefined where `said` says it already. */
  readonly verdict: string | undefined;
}

/** Where the diagnosis stands. */
export type ReportEnd =
  | { readonly kind: 'cause'; readonly title: string }
  | { readonly kind: 'other'; readonly title: string }
  /** Titles of the causes that are still open, the likeliest first. */
  | { readonly kind: 'open'; readonly titles: readonly string[] };

export interface ReportCaution {
  readonly severity: Severity;
  readonly title: string;
  /** What to do, in one line. */
  readonly line: string;
}

/** More causes than this are counted, not named. */
const mostNamed = 8;

/** The report as blocks, in the order in which a reader of a thread wants them. */
export function arrangeReport(report: DiagnosisReport): readonly PostBlock[] {
  return [
    { kind: 'heading', text: report.title },
    ...named('Unit', report.unit),
    ...named('Symptom', report.symptom),
    ...named('Question', report.question.trim() === '' ? askFor(report) : report.question),
    ...(report.lines.length === 0 ? [] : [label('Checked so far'), listOf(report.lines.map(describeLine))]),
    ...listUnder('Repairs that did not help', report.did),
    ...describeEnd(report.end),
    ...listUnder('Please check', report.asked),
    ...tellCautions(report.cautions),
    ...named('Notes', report.notes),
    { kind: 'link', name: `The whole diagnosis, on ${report.site}:`, address: report.link },
  ];
}

/** What a post asks where its writer says nothing else. */
function askFor({ lines, end, asked }: DiagnosisReport): string {
  if (asked.length > 0)
    return `Please do ${asked.length === 1 ? 'this check' : `these ${asked.length} checks`} and post what you find.`;
  if (end.kind === 'cause') return 'Does anything speak against this cause?';
  if (end.kind === 'other') return 'What would you do next?';
  return lines.length === 0 ? 'Where would you begin?' : 'What would you check next?';
}

/** Two lines: what can hurt a person, the gravest first, with what to do; then the rest by its titles. */
function tellCautions(cautions: readonly ReportCaution[]): readonly PostBlock[] {
  if (cautions.length === 0) return [];
  const sorted = severities.flatMap((severity) => cautions.filter((caution) => caution.severity === severity));
  const grave = sorted.filter(({ severity }) => severity === 'danger' || severity === 'warning');
  const rest = sorted.filter((caution) => !grave.includes(caution)).map(({ title }) => title);
  const said = grave.map(({ severity, line }) => `${severityWords[severity].word}: ${line}`).join(' ');
  const also = rest.length === 0 ? '' : `Also: ${rest.join('; ')}. `;
  return [
    ...named('Before you go on', said),
    { kind: 'paragraph', spans: [{ text: `${also}Open the page of a step to read them in full.` }] },
  ];
}

function named(name: string, text: string): readonly PostBlock[] {
  if (text.trim() === '') return [];
  return [{ kind: 'paragraph', spans: [{ text: `${name}:`, isStrong: true }, { text }] }];
}

function listUnder(name: string, titles: readonly string[]): readonly PostBlock[] {
  return titles.length === 0 ? [] : [label(name), listOf(titles.map((title) => [{ text: title }]))];
}

function label(name: string): PostBlock {
  return { kind: 'paragraph', spans: [{ text: `${name}:`, isStrong: true }] };
}

function listOf(items: readonly (readonly PostSpan[])[]): PostBlock {
  return { kind: 'list', items };
}

function describeLine({ title, said, target, verdict }: ReportLine): readonly PostSpan[] {
  return [
    { text: title },
    { text: said, isStrong: true },
    ...(target === undefined ? [] : [{ text: `(healthy: ${target})` }]),
    ...(verdict === undefined ? [] : [{ text: verdict }]),
  ];
}

function describeEnd(end: ReportEnd): readonly PostBlock[] {
  if (end.kind === 'cause') return named('Points to', end.title);
  if (end.kind === 'other') return named('Ends at', end.title);
  const shown = end.titles.slice(0, mostNamed);
  const more = end.titles.length - shown.length;
  if (shown.length === 0) return [];
  return [
    ...named('Still open', `${end.titles.length} ${end.titles.length === 1 ? 'cause' : 'causes'}`),
    listOf([...shown.map((title) => [{ text: title }]), ...(more > 0 ? [[{ text: `and ${more} more` }]] : [])]),
  ];
}

/** A diagnosis as a post for a forum: the unit, the symptom, each reading with its target and verdict, and the link. */
export function writePost(report: DiagnosisReport, format: PostFormat): string {
  return `${writeBlocks(arrangeReport(report), format)}\n`;
}

/** What a report is made of, beside what the owner says in words of their own. */
export interface ReportSource {
  readonly bench: BenchTree;
  /** Trees that answers of the state come from, by slug, where they are at hand. */
  readonly others?: ReadonlyMap<string, BenchTree>;
  readonly state: LinkState;
  /** The node whose page this is, or undefined on the page of the whole tree: then the answers say where one stands. */
  readonly node: string | undefined;
  /** What the engine makes of the answers. */
  readonly causes: readonly AssessedCause[];
}

/** What the owner says, and what surrounds the diagnosis: taken over as it is. */
export type ReportFrame = Pick<
  DiagnosisReport,
  'unit' | 'symptom' | 'question' | 'notes' | 'cautions' | 'site' | 'link'
>;

/** A diagnosis in words: each answer with its target and verdict, and the cause or what is still open. */
export function makeReport({ bench, others, state, node, causes }: ReportSource, frame: ReportFrame): DiagnosisReport {
  const { tree } = bench;
  const titleOf = (id: string): string => findNode(tree, id)?.title ?? printWord(id);
  return {
    ...frame,
    title: tree.title,
    lines: state.answers.map((answer) =>
      describeAnswer(answer, answer.tree === undefined ? bench : others?.get(answer.tree)),
    ),
    end: describePlace(tree, findNode(tree, node ?? findStanding(bench, state)), causes),
    did: state.did.map(titleOf),
    asked: openAsked(state).map(titleOf),
  };
}

/**
 * Where the answers lead: the node behind the last one given in this tree; that check itself where its reading is too close to
 * call; the tree's first node where nothing was answered.
 */
export function findStanding(bench: BenchTree, state: LinkState): string {
  const { tree } = bench;
  const last = state.answers.findLast((answer) => answer.tree === undefined && findNode(tree, answer.node));
  return last === undefined
    ? (tree.nodes[0]?.id ?? '')
    : (leadsTo(last, waysOf(tree), (answer) => decideWord(answer, bench)) ?? last.node);
}

function describePlace(tree: FaultTree, node: TreeNode | undefined, causes: readonly AssessedCause[]): ReportEnd {
  if (node?.kind === 'cause') return { kind: 'cause', title: node.title };
  if (node?.kind === 'elsewhere' || node?.kind === 'hand-over') return { kind: 'other', title: node.title };
  return { kind: 'open', titles: listOpenCauses(tree, causes).map(({ title }) => title) };
}

/** `bench` is that of the answer's own tree; bare words where it is not at hand. */
function describeAnswer(answer: Answer, bench: BenchTree | undefined): ReportLine {
  const node = bench === undefined ? undefined : findNode(bench.tree, answer.node);
  if (bench === undefined || !isStep(node)) {
    const title = [answer.tree, answer.node].filter((part) => part !== undefined).join(': ');
    return { title: title.replaceAll('-', ' '), said: sayAnswer(answer), target: undefined, verdict: undefined };
  }
  const own = { ...answer, tree: undefined };
  const target = targetAt(bench, node.id, answer.stage);
  const title = node.kind === 'path' ? nameStage(node, answer.stage) : node.title;
  return {
    title: answer.tree === undefined ? title : `${title} (${bench.tree.title})`,
    said: sayAnswer(own, bench),
    target: target === undefined ? undefined : printHealthy(target),
    verdict: target === undefined || isWord(answer.value) ? undefined : describeVerdict(own, bench),
  };
}

function nameStage(path: SignalPath, stage: string | undefined): string {
  if (stage === undefined) return path.title;
  return `${path.title}: ${path.stages.find(({ id }) => id === stage)?.title ?? stage.replaceAll('-', ' ')}`;
}

import { findNode } from '../model/links.ts';
import { openEnds } from '../model/open-ends.ts';
import type { FaultTree, SignalPath, TreeNode } from '../model/fault-tree.ts';
import { printHealthy, printWord } from '../model/target-text.ts';
import { openAsked } from '../share/asked.ts';
import { isWord } from '../share/answer-value.ts';
import type { Answer, LinkState } from '../share/link-state.ts';
import type { DiagnosisReport, ReportEnd, ReportLine } from '../share/report.ts';
import { describeVerdict } from './describe-verdict.ts';
import { type BenchTree, targetAt, wayOn } from './judge-answer.ts';
import { sayAnswer } from './say-answer.ts';

/** What a report is made of, beside what the owner says in words of their own. */
export interface ReportSource {
  readonly bench: BenchTree;
  readonly state: LinkState;
  /** The node whose page this is, or undefined on the page of the whole tree: then the answers say where one stands. */
  readonly node: string | undefined;
}

/** What the owner says, and what surrounds the diagnosis: taken over as it is. */
export type ReportFrame = Pick<DiagnosisReport, 'unit' | 'symptom' | 'notes' | 'cautions' | 'link'>;

/** A diagnosis in words: each answer with its target and verdict, and the cause or what is still open. */
export function makeReport({ bench, state, node }: ReportSource, frame: ReportFrame): DiagnosisReport {
  const { tree } = bench;
  const titleOf = (id: string): string => findNode(tree, id)?.title ?? printWord(id);
  return {
    ...frame,
    title: tree.title,
    lines: state.answers.map((answer) => describeAnswer(answer, bench)),
    end: describePlace(tree, findNode(tree, node ?? findStanding(bench, state))),
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
  return last === undefined ? (tree.nodes[0]?.id ?? '') : (wayOn(last, bench) ?? last.node);
}

function describePlace(tree: FaultTree, node: TreeNode | undefined): ReportEnd {
  if (node?.kind === 'cause') return { kind: 'cause', title: node.title };
  if (node?.kind === 'elsewhere' || node?.kind === 'hand-over') return { kind: 'other', title: node.title };
  const from = node?.id ?? tree.nodes[0]?.id ?? '';
  return { kind: 'open', titles: openEnds(tree, from).map(({ title }) => title) };
}

function describeAnswer(answer: Answer, bench: BenchTree): ReportLine {
  const node = answer.tree === undefined ? findNode(bench.tree, answer.node) : undefined;
  if (node?.kind !== 'check' && node?.kind !== 'path') {
    const title = [answer.tree, answer.node].filter((part) => part !== undefined).join(': ');
    return { title: title.replaceAll('-', ' '), said: sayAnswer(answer, bench), target: undefined, verdict: undefined };
  }
  const target = targetAt(bench, node.id, answer.stage);
  return {
    title: node.kind === 'path' ? nameStage(node, answer.stage) : node.title,
    said: sayAnswer(answer, bench),
    target: target === undefined ? undefined : printHealthy(target),
    verdict: target === undefined || isWord(answer.value) ? undefined : describeVerdict(answer, bench),
  };
}

function nameStage(path: SignalPath, stage: string | undefined): string {
  if (stage === undefined) return path.title;
  return `${path.title}: ${path.stages.find(({ id }) => id === stage)?.title ?? stage.replaceAll('-', ' ')}`;
}

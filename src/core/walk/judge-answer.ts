import { applyLimits } from '../model/apply-limits.ts';
import type { FaultTree } from '../model/fault-tree.ts';
import type { References } from '../model/library.ts';
import { findNode } from '../model/links.ts';
import type { Limits, Target } from '../model/target.ts';
import { judgeWith } from '../reading/judge-with.ts';
import type { JudgedText } from '../reading/judgement.ts';
import { isWord } from '../share/answer-value.ts';
import { followAnswer } from '../share/follow-answer.ts';
import type { Answer } from '../share/link-state.ts';

/** A tree as it stands on one bench: what it refers to, and the limits that the unit puts in place of the general ones. */
export interface BenchTree {
  readonly tree: FaultTree;
  readonly references: Pick<References, 'targets' | 'instrumentClasses'>;
  /** By slug of target. */
  readonly limits: Readonly<Record<string, Limits>>;
}

/** What an answer comes to. */
export type JudgedAnswer =
  /** A word was chosen, by hand or by the reading. */
  | { readonly kind: 'word'; readonly word: string; readonly judgement: JudgedText | undefined }
  /** A reading that is too close to call, or not to be trusted: an answer, but no way on. */
  | { readonly kind: 'undecided'; readonly judgement: JudgedText }
  /** It says nothing here: the check has no target, the stage is unknown, the text is no reading. */
  | { readonly kind: 'nothing'; readonly text: string };

/** The target of a check, or of a stage of a path, with the unit's own limits; undefined where there is none. */
export function targetAt(bench: BenchTree, node: string, stage?: string): Target | undefined {
  const found = findNode(bench.tree, node);
  const slug =
    found?.kind === 'check'
      ? found.target?.target
      : found?.kind === 'path'
        ? found.stages.find(({ id }) => id === stage)?.target
        : undefined;
  return slug === undefined ? undefined : withUnitLimits(slug, bench);
}

function withUnitLimits(slug: string, { references, limits }: BenchTree): Target | undefined {
  const target = references.targets.get(slug);
  const own = Object.hasOwn(limits, slug) ? limits[slug] : undefined;
  return target === undefined || own === undefined ? target : applyLimits(target, own);
}

/**
 * What an answer of the bench's own tree comes to. A word stands as it is, even over a reading behind it: a person decided.
 * A reading is judged with the instrument it was taken with, by the unit's limits. Never throws.
 */
export function judgeAnswer(answer: Answer, bench: BenchTree): JudgedAnswer {
  const target = targetAt(bench, answer.node, answer.stage);
  const text = isWord(answer.value) ? answer.readings?.[0] : answer.value;
  const judgement =
    text === undefined || target === undefined
      ? undefined
      : judgeWith(text, target, answer.instrument, bench.references.instrumentClasses);
  if (isWord(answer.value)) return { kind: 'word', word: answer.value, judgement };
  if (target === undefined) return { kind: 'nothing', text: 'A figure is no answer to this check.' };
  if (judgement === undefined) return { kind: 'nothing', text: '' };
  if (judgement.kind === 'problem') return { kind: 'nothing', text: judgement.problem.message };
  if (judgement.verdict === 'too-close') return { kind: 'undecided', judgement };
  return { kind: 'word', word: judgement.verdict, judgement };
}

/** Where an answer leads: a node of the tree, or undefined where it leaves the reader on the spot. */
export function wayOn(answer: Answer, bench: BenchTree): string | undefined {
  const judged = judgeAnswer(answer, bench);
  const node = findNode(bench.tree, answer.node);
  return judged.kind === 'word' && node !== undefined ? followAnswer(node, answer.stage, judged.word) : undefined;
}

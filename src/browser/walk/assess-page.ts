import {
  type AssessedCause,
  type Assessment,
  assessTree,
  type Known,
  listOpenCauses,
  rankChecks,
} from '#core/diagnosis/tree/assess-tree.ts';
import { type Bench, collectTreeChecks } from '#core/diagnosis/tree/tree-checks.ts';
import { carryAnswer } from '#core/diagnosis/tree/carry-answers.ts';
import type { Answer } from '#core/answer/answer.ts';
import { areNeighbours } from '#core/answer/judge-answer.ts';
import { isOutdated } from '#core/link/changes.ts';
import type { BenchTree, Walk } from '#core/answer/bench-tree.ts';
import { answersOfMains, readAnswers } from '#core/answer/evidence.ts';
import { readBench } from '../bench.ts';
import { insideMark, mainsExposure, readMarks } from '../job-memory.ts';
import { findOpenJob } from '../open-job.ts';
import { loadWalk } from './load-bench.ts';
import { priceMinutes } from './price-minutes.ts';
import type { Minutes } from './price-worker.ts';
import type { WalkPage } from './walk-page.ts';

/** What the engine makes of the fragment. */
export interface Assessed {
  readonly assessment: Assessment;
  /** The causes still open, as every count of them has them. */
  readonly open: readonly AssessedCause[];
  /** What was not understood of the answers, one sentence each. */
  readonly problems: readonly string[];
  /** Nodes without an answer, what tells most for its minutes first. */
  readonly rankChecks: () => readonly string[];
  /** Counted beside the page, so it comes later. Undefined where it could not be counted. */
  readonly countMinutes: () => Promise<Minutes | undefined>;
}

/** Assesses what the fragment says, answers of other trees included where they ask for the same. */
export async function assessPage(
  page: Pick<WalkPage, 'map' | 'state' | 'unit'>,
  { tree, references }: Walk,
  walked: BenchTree,
): Promise<Assessed> {
  const { instruments } = readBench();
  const limitHours = findOpenJob()?.limitHours;
  const mains = page.unit?.mains ?? mainsExposure();
  const isInside = mains === 'unknown' ? readMarks(page.state.unit).has(insideMark) : mains !== 'outside';
  const bench: Bench = {
    families: instruments === undefined ? undefined : new Set(instruments),
    limitMinutes: limitHours === undefined ? undefined : limitHours * 60,
    isMainsOutside: mains === 'outside',
  };
  const carried = await carryAnswers(page.state.answers, walked);
  // What its check does not know any more was said when the link was read.
  const own = page.state.answers.filter((answer) => isEvidence(answer, walked) && !isOutdated(answer, page.map));
  const all = [...carried.filter(({ node }) => !own.some((one) => one.node === node)), ...own];
  const checks = collectTreeChecks(tree, references, bench);
  const { read: given, problems } = readAnswers(all, walked, checks);
  const declared = answersOfMains(tree, isInside, page.unit?.supplyKind).filter(
    ({ node }) => !given.some((one) => one.node === node),
  );
  const known: Known = {
    read: [...declared, ...given],
    did: page.state.did,
    isWorsened: page.state.worsened !== undefined,
  };
  const assessment = assessTree(tree, references, known, { bench, checks });
  const open = listOpenCauses(tree, assessment.causes);
  return {
    assessment,
    open,
    problems,
    rankChecks: () => rankChecks(tree, references, known, { bench, checks }),
    countMinutes: () => priceMinutes({ tree, references, known, bench }),
  };
}

/** Readings of neighbours that were not decided yet answer nothing. */
function isEvidence(answer: Answer, bench: BenchTree): boolean {
  return answer.tree === undefined && !areNeighbours(answer, bench);
}

async function carryAnswers(answers: readonly Answer[], { tree }: BenchTree): Promise<readonly Answer[]> {
  const slugs = [...new Set(answers.flatMap((answer) => answer.tree ?? []))];
  const walks = await Promise.all(slugs.map((slug) => loadWalk(slug)));
  return answers.flatMap((answer): readonly Answer[] => {
    const from = walks[slugs.indexOf(answer.tree ?? '')];
    const carried = from === undefined ? undefined : carryAnswer(from.tree, answer, tree);
    return carried === undefined ? [] : [carried];
  });
}

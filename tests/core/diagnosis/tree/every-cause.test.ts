import { describe, expect, test } from 'vitest';
import { readContent } from '#build/library.ts';
import { assessTree, type Assessment, type Known } from '#core/diagnosis/tree/assess-tree.ts';
import { deriveProblem } from '#core/diagnosis/tree/derive-problem.ts';
import { collectTreeChecks, everythingAtHand, type TreeCheck } from '#core/diagnosis/tree/tree-checks.ts';
import { tellMinutes, type ToldMinutes } from '#core/diagnosis/tree/tell-minutes.ts';
import { listCleared } from '#core/diagnosis/tree/written-road.ts';
import type { Cause, FaultTree } from '#core/model/fault-tree.ts';
import { cautionsOf, needsOf, opensCase } from '#core/model/node.ts';

// Every cause of every tree is walked as its unit would answer: by what the file says that the cause shows, else by the road to it, and
// always by what is suggested. What is held is what the page promises: no figure here is the program's own.

const { library } = readContent();
const causes = [...library.trees.values()].flatMap((tree) =>
  tree.nodes.filter((node): node is Cause => node.kind === 'cause').map((cause) => ({ tree, cause })),
);
/** A diagnosis with more steps than this goes nowhere. */
const mostSteps = 60;

const firstRepair = {
  bench: everythingAtHand,
  goal: 'repair',
  isFaultless: false,
  repaired: [],
  isWorsened: false,
} as const;

interface Step {
  readonly check: TreeCheck;
  readonly known: Known;
  readonly assessment: Assessment;
}

interface Walked {
  readonly steps: readonly Step[];
  /** Whether its repair is suggested, or it is the likeliest when there is nothing left to check. */
  readonly isReached: boolean;
  readonly told: string;
}

function walk(tree: FaultTree, cause: Cause): Walked {
  const checks = collectTreeChecks(tree, library, everythingAtHand);
  const { problem } = deriveProblem(tree, library, { ...firstRepair, checks });
  const position = problem.causes.findIndex(({ id }) => id === cause.id);
  const steps: Step[] = [];
  const told: string[] = [];
  let known: Known = { read: [], did: [], isWorsened: false };
  const end = (isReached: boolean): Walked => ({ steps, isReached, told: told.join(' ') });
  for (let count = 0; count < mostSteps; count += 1) {
    const assessment = assessTree(tree, library, known, { bench: everythingAtHand, checks });
    const { next } = assessment;
    told.push('node' in next ? next.node : next.kind);
    if (next.kind === 'repair' && next.node !== cause.id) {
      known = { ...known, did: [...known.did, next.node] };
      continue;
    }
    if (next.kind !== 'check')
      return end(('node' in next && next.node === cause.id) || assessment.causes[0]?.id === cause.id);
    const at = checks.findIndex(({ node, stage }) => node.id === next.node && stage?.id === next.stage);
    const check = checks[at];
    if (check === undefined) throw new Error(`${next.node} is no check of ${tree.slug}`);
    steps.push({ check, known, assessment });
    const row = problem.checks[at]?.likelihood[position] ?? [];
    const word = check.words[row.findIndex((share) => share > Math.max(...row) - 1e-9)] ?? '';
    told.push(`= ${word},`);
    const read = {
      node: next.node,
      stage: next.stage,
      said: word,
      word,
      evidence: [{ kind: 'outcome', check: check.id, outcome: word } as const],
    };
    known = { ...known, read: [...known.read, read] };
  }
  return end(false);
}

const walks = causes.map(({ tree, cause }) => ({
  tree,
  cause,
  name: `${tree.slug}/${cause.id}`,
  walked: walk(tree, cause),
}));

describe('every cause of every tree, followed by what is suggested', () => {
  test('there are causes to walk, and checks on their ways', () => {
    expect(walks.length).toBeGreaterThan(150);
    expect(walks.every(({ walked }) => walked.steps.length > 0)).toBe(true);
  });

  test('is reached: its repair is suggested, or it is named most likely at the end', () => {
    const lost = walks.filter(({ walked }) => !walked.isReached).map(({ name, walked }) => `${name}: ${walked.told}`);
    expect(lost).toEqual([]);
  });

  test('is asked nothing twice, and no stage of a path that an answer has cleared', () => {
    const probed = walks.flatMap(({ tree, name, walked }) =>
      walked.steps
        .filter(
          ({ check, known }) =>
            listCleared(tree, known.read).has(check.id) ||
            known.read.some(({ node, stage }) => node === check.node.id && stage === check.stage?.id),
        )
        .map(({ check }) => `${name}: ${check.id}`),
    );
    expect(probed).toEqual([]);
  });

  test('“Separates” names two that are both at least possible: from 5 % on', () => {
    const wrong = walks.flatMap(({ name, walked }) =>
      walked.steps.flatMap(({ assessment }) => {
        const named = [...(/“([^”]+)” from “([^”]+)”/u.exec(assessment.why) ?? [])].slice(1);
        const isOpen = (title: string): boolean =>
          assessment.causes.some((one) => one.title === title && one.probability >= 0.05);
        return named.every(isOpen) ? [] : [`${name}: ${assessment.why}`];
      }),
    );
    expect(wrong).toEqual([]);
  });

  test('minutes told never grow by more than the last check took without a word of it, nor is one said where they do not', () => {
    // Minutes take long to plan: every fourth tree.
    const slugs = [...library.trees.keys()];
    const wrong = walks.flatMap(({ tree, name, walked }) =>
      walked.steps.flatMap(({ check, known, assessment }, place) => {
        if (slugs.indexOf(tree.slug) % 4 !== 0) return [];
        const after = walked.steps[place + 1];
        // A repair that did not cure is said by whoever presses it.
        if (after === undefined || after.known.did.length > known.did.length) return [];
        const [before, now] = [tell(tree, known), tell(tree, after.known)];
        const grown = Math.round(now.suggested) - Math.round(before.suggested);
        const isLonger = grown > Math.round(minutesOf(check, known));
        const share = shareOf(tree, check, after.known.read.at(-1)?.word ?? '', assessment);
        const expected = isLonger ? (share < 0.5 ? 'unexpected' : 'more than before') : 'nothing';
        const said =
          now.rise === undefined ? 'nothing' : (/unexpected|more than before/u.exec(now.rise)?.[0] ?? now.rise);
        return said === expected ? [] : [`${name}: ${check.id} ${before.suggested} → ${now.suggested}: ${said}`];
      }),
    );
    expect(wrong).toEqual([]);
    const rises = new Set([...told.values()].map(({ rise }) => rise?.replace(/“.*”|\d+/gu, '…')));
    expect(rises.size).toBe(3);
  }, 240_000);

  test('two minutes with the case closed come before the case is opened, unless they would tell less than a tenth of a bit', () => {
    const early = walks.flatMap(({ tree, name, walked }) => {
      const opening = walked.steps.find(({ check }) => opensCase(check.node));
      if (opening === undefined) return [];
      const done = new Set(opening.known.read.map(({ node }) => node));
      return collectTreeChecks(tree, library, everythingAtHand)
        .filter(
          ({ node, leaves, after }) =>
            node.kind === 'check' &&
            node.minutes + node.waitMinutes <= 2 &&
            leaves === 'nothing' &&
            !opensCase(node) &&
            !done.has(node.id) &&
            after.every((first) => done.has(first)) &&
            cautionsOf(node, library).every(({ severity }) => severity !== 'danger'),
        )
        .filter((check) => bitsOf(tree, check, opening.assessment) >= 0.1)
        .map((check) => `${name}: ${check.id} after ${opening.check.id}`);
    });
    expect(early).toEqual([]);
  });
});

/** By tree and answers: what is told of the minutes, with few states of the plan, as only their order counts here. */
const told = new Map<string, ToldMinutes>();

function tell(tree: FaultTree, known: Known): ToldMinutes {
  const key = JSON.stringify([tree.slug, known.did, known.read.map(({ node, stage, word }) => [node, stage, word])]);
  const minutes = told.get(key) ?? tellMinutes(tree, library, known, { bench: everythingAtHand, mostStates: 40 });
  told.set(key, minutes);
  return minutes;
}

/** Minutes of a check by its file: its own, its wait, the set-ups that end at a power-on, and the lasting ones that nothing before needed. */
function minutesOf({ node, stage }: TreeCheck, { read, did }: Known): number {
  const nodes = [...library.trees.values()].flatMap((tree) => (tree.nodes.includes(node) ? tree.nodes : []));
  const paid = new Set(
    nodes.filter(({ id }) => did.includes(id) || read.some((answer) => answer.node === id)).flatMap(needsOf),
  );
  const setups = node.needs
    .flatMap((slug) => library.setups.get(slug) ?? [])
    .filter(({ slug, endedBy }) => endedBy !== undefined || !paid.has(slug));
  const own = node.kind === 'path' ? (stage?.minutes ?? 0) : node.minutes + node.waitMinutes;
  return own + setups.reduce((sum, { minutes }) => sum + minutes, 0);
}

/** P(answer) before it was given: the sum over causes of P(cause) P(answer | cause). */
function shareOf(tree: FaultTree, { id, words }: TreeCheck, word: string, { causes: before }: Assessment): number {
  const { problem } = deriveProblem(tree, library, firstRepair);
  const rows = problem.checks.find((check) => check.id === id)?.likelihood ?? [];
  return problem.causes.reduce(
    (sum, cause, place) =>
      sum + (before.find((one) => one.id === cause.id)?.probability ?? 0) * (rows[place]?.[words.indexOf(word)] ?? 0),
    0,
  );
}

/** Shannon’s mutual information of a check’s outcome and the cause, in bits: H(outcome) − Σ P(cause) H(outcome | cause). */
function bitsOf(tree: FaultTree, { id }: TreeCheck, { causes: now }: Assessment): number {
  const { problem } = deriveProblem(tree, library, firstRepair);
  const rows = problem.checks.find((check) => check.id === id)?.likelihood ?? [];
  const belief = problem.causes.map((cause) => now.find((one) => one.id === cause.id)?.probability ?? 0);
  const entropy = (row: readonly number[]): number =>
    row.reduce((sum, share) => sum - (share > 0 ? share * Math.log2(share) : 0), 0);
  const mean = (rows[0] ?? []).map((_, outcome) =>
    rows.reduce((sum, row, cause) => sum + (belief[cause] ?? 0) * (row[outcome] ?? 0), 0),
  );
  return entropy(mean) - rows.reduce((sum, row, cause) => sum + (belief[cause] ?? 0) * entropy(row), 0);
}

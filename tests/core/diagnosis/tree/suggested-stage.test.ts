import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readContent } from '#build/library.ts';
import { assessTree, type Known } from '#core/diagnosis/tree/assess-tree.ts';
import { collectTreeChecks, everythingAtHand } from '#core/diagnosis/tree/tree-checks.ts';
import type { FaultTree } from '#core/model/fault-tree.ts';
import { stagesUpTo } from '#core/model/node.ts';
import type { Answer } from '#core/answer/answer.ts';
import { readAnswers } from '#core/answer/evidence.ts';
import { makeCause, makePath, makeTree } from '../../../arbitraries/make-tree.ts';

const { library } = readContent();
/** Each shipped path as a tree of its own: what leads to it is answered, and each of its ends is a cause. */
const paths = [...library.trees.values()].flatMap((tree) =>
  tree.nodes.flatMap((node) => {
    if (node.kind !== 'path') return [];
    const path = { ...node, after: [], needs: [] };
    const ends = new Set([...path.stages.map(({ fault }) => fault), path.good]);
    return [{ tree: makeTree([path, ...[...ends].map((id) => makeCause(id))]), path }];
  }),
);

function know(tree: FaultTree, path: string, stages: readonly (readonly [stage: string, value: string])[]): Known {
  const answers = stages.map(([stage, value]): Answer => ({ tree: undefined, node: path, stage, value }));
  const checks = collectTreeChecks(tree, library, everythingAtHand);
  const { read } = readAnswers(answers, { tree, references: library, limits: {} }, checks);
  return { read, did: [], isWorsened: false };
}

/** Each path with some of its stages answered, by one fault between them. */
const arbitraryAnswers = fc
  .record({
    which: fc.constantFrom(...paths),
    fault: fc.nat(),
    read: fc.array(fc.nat(), { minLength: 1, maxLength: 4 }),
  })
  .map(({ which: { tree, path }, fault, read }) => {
    const faulty = path.stages[fault % path.stages.length]?.id ?? '';
    const places = new Set(read.map((place) => place % path.stages.length));
    const answers = [...places].map((place) => {
      const id = path.stages[place]?.id ?? '';
      return [id, stagesUpTo(path, id).has(faulty) ? 'bad' : 'in'] as const;
    });
    return { tree, path, answers };
  });

describe('the stage that is suggested', () => {
  // Five equally common ends on a line of four stages: a probe after the second or the third parts them two to three.
  const line = makeTree([
    makePath('line', { First: 'one', Second: 'two', Third: 'three', Fourth: 'four' }, 'five'),
    ...['one', 'two', 'three', 'four', 'five'].map((id) => makeCause(id)),
  ]);
  const bare = { ...library, setups: new Map(), cautions: new Map() };

  test('is the half split of the likelihoods where all cost the same', () => {
    const nothing: Known = { read: [], did: [], isWorsened: false };
    const { next } = assessTree(line, bare, nothing, { bench: everythingAtHand });
    expect(next).toMatchObject({ kind: 'check', node: 'line', stage: expect.stringMatching(/^stage-[12]$/) });
  });

  test('gives way to the repair where one suspect is left', () => {
    const known = know(line, 'line', [
      ['stage-1', 'in'],
      ['stage-2', 'bad'],
    ]);
    const { next } = assessTree(line, bare, known, { bench: everythingAtHand });
    expect(next).toMatchObject({ kind: 'repair', node: 'three' });
  });

  test('lies in the stretch that the answers leave: before every bad stage, behind every good one, and not read yet', () => {
    let count = 0;
    fc.assert(
      fc.property(arbitraryAnswers, ({ tree, path, answers }) => {
        const { next } = assessTree(tree, library, know(tree, path.id, answers), { bench: everythingAtHand });
        if (next.kind !== 'check' || next.node !== path.id) return;
        const left = path.stages.filter(({ id }) =>
          answers.every(([other, word]) => other !== id && stagesUpTo(path, other).has(id) === (word === 'bad')),
        );
        expect(left.map(({ id }) => id)).toContain(next.stage);
        count += 1;
      }),
      { numRuns: 150 },
    );
    expect(count).toBeGreaterThan(20);
  });
});

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readContent } from '#build/library.ts';
import { assessTree, chooseStage, type Known } from '#core/diagnosis/tree/assess-tree.ts';
import { collectTreeChecks, everythingAtHand } from '#core/diagnosis/tree/tree-checks.ts';
import type { FaultTree } from '#core/model/fault-tree.ts';
import { stagesUpTo } from '#core/model/node.ts';
import type { Answer } from '#core/answer/answer.ts';
import { readAnswers } from '#core/answer/evidence.ts';
import { makeCause, makePath, makeTree } from '../../../arbitraries/make-tree.ts';

const { library } = readContent();
const paths = [...library.trees.values()].flatMap((tree) =>
  tree.nodes.flatMap((node) => (node.kind === 'path' ? [{ tree, path: node }] : [])),
);

function know(tree: FaultTree, path: string, stages: readonly (readonly [stage: string, value: string])[]): Known {
  const answers = stages.map(([stage, value]): Answer => ({ tree: undefined, node: path, stage, value }));
  const checks = collectTreeChecks(tree, library, everythingAtHand);
  const { read } = readAnswers(answers, { tree, references: library, limits: {} }, checks);
  return { read, did: [], isWorsened: false };
}

/** Each path with some of its stages answered, by one fault between them. */
const arbitraryAnswers = fc
  .record({ which: fc.constantFrom(...paths), fault: fc.nat(), read: fc.array(fc.nat(), { maxLength: 4 }) })
  .map(({ which: { tree, path }, fault, read }) => {
    const faulty = path.stages[fault % path.stages.length]?.id ?? '';
    const places = new Set(read.map((place) => place % path.stages.length));
    const answers = [...places].map((place) => {
      const id = path.stages[place]?.id ?? '';
      return [id, stagesUpTo(path, id).has(faulty) ? 'bad' : 'in'] as const;
    });
    return { tree, path, answers };
  });

describe('the stage to probe on the page of a path', () => {
  // Five equally common ends on a line of four stages: a probe after the second or the third parts them two to three.
  const line = makeTree([
    makePath('line', { First: 'one', Second: 'two', Third: 'three', Fourth: 'four' }, 'five'),
    ...['one', 'two', 'three', 'four', 'five'].map((id) => makeCause(id)),
  ]);
  const bare = { ...library, setups: new Map(), cautions: new Map() };

  test('is the suggested step itself, and the half split of the likelihoods where all cost the same', () => {
    const nothing: Known = { read: [], did: [], isWorsened: false };
    const stage = chooseStage(line, bare, nothing, 'line', { bench: everythingAtHand });
    expect(['stage-1', 'stage-2']).toContain(stage);
    const { next } = assessTree(line, bare, nothing, { bench: everythingAtHand });
    expect(next).toMatchObject({ kind: 'check', node: 'line', stage });
  });

  test('is none where one suspect is left, whatever the doubt of the instrument', () => {
    const known = know(line, 'line', [
      ['stage-1', 'in'],
      ['stage-2', 'bad'],
    ]);
    expect(chooseStage(line, bare, known, 'line', { bench: everythingAtHand })).toBeUndefined();
    const { next } = assessTree(line, bare, known, { bench: everythingAtHand });
    expect(next).toMatchObject({ kind: 'repair', node: 'three' });
  });

  test('lies in the stretch that the answers leave: before every bad stage, behind every good one, and not read yet', () => {
    let count = 0;
    fc.assert(
      fc.property(arbitraryAnswers, ({ tree, path, answers }) => {
        const stage = chooseStage(tree, library, know(tree, path.id, answers), path.id, { bench: everythingAtHand });
        const left = path.stages.filter(({ id }) =>
          answers.every(([other, word]) => other !== id && stagesUpTo(path, other).has(id) === (word === 'bad')),
        );
        if (stage === undefined) expect(left).toEqual([]);
        else expect(left.map(({ id }) => id)).toContain(stage);
        count += left.length > 0 ? 1 : 0;
      }),
      { numRuns: 150 },
    );
    expect(count).toBeGreaterThan(50);
  });

  test('is none on a node that is not a path, and none without an instrument for it', () => {
    const [first] = paths;
    if (first === undefined) throw new Error('no path in any tree');
    const { tree, path } = first;
    const nothing: Known = { read: [], did: [], isWorsened: false };
    expect(chooseStage(tree, library, nothing, tree.nodes[0]?.id ?? '', { bench: everythingAtHand })).toBeUndefined();
    const empty = { ...everythingAtHand, families: new Set<string>() };
    const isSensed = path.instruments.some((family) =>
      ['eyes', 'ears', 'nose', 'hands', 'ears-compare'].includes(family),
    );
    expect(chooseStage(tree, library, nothing, path.id, { bench: empty }) === undefined).toBe(!isSensed);
  });
});

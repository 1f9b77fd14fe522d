import { listParagraphs } from '#core/model/prose.ts';
import { readContent } from '#build/library.ts';
import type { FaultTree } from '#core/model/fault-tree.ts';
import { findNode, reachableFrom } from '#core/model/node.ts';
import { assessTree } from '#core/diagnosis/tree/assess-tree.ts';
import { collectTreeChecks, everythingAtHand } from '#core/diagnosis/tree/tree-checks.ts';
import { readAnswers } from '#core/answer/evidence.ts';
import { describe, expect, test } from 'vitest';

const { library } = readContent();
const tree = treeOf('audio-hum');
const leadFaults = ['lead-broken', 'socket-joint', 'earth-loop'];

function treeOf(slug: string): FaultTree {
  const found = library.trees.get(slug);
  if (found === undefined) throw new Error(`There is no tree ${slug}.`);
  return found;
}

/** What the page would say after these answers, and after repairs that did not cure. */
function assess(answers: Readonly<Record<string, string>>, did: readonly string[] = []) {
  const { read, problems } = readAnswers(
    Object.entries(answers).map(([node, value]) => ({ tree: undefined, node, stage: undefined, value })),
    { tree, references: library, limits: {} },
    collectTreeChecks(tree, library, everythingAtHand),
  );
  expect(problems).toEqual([]);
  return assessTree(tree, library, { read, did, isWorsened: false }, { bench: everythingAtHand });
}

describe('a unit that hums', () => {
  test('is not switched on before its mains lead was looked at and its earth read', () => {
    const [start] = tree.nodes;
    expect(start).toMatchObject({ id: 'lead-look', power: 'off' });
    const powered = tree.nodes.filter((node) => 'power' in node && node.power === 'on').map(({ id }) => id);
    expect(powered.length).toBeGreaterThan(5);
    const beforeEarth = reachableFrom(
      { ...tree, nodes: tree.nodes.filter(({ id }) => id !== 'earth-path') },
      'lead-look',
    );
    for (const id of powered) expect(beforeEarth.has(id), id).toBe(false);
    expect(assess({ 'outside-try': 'stays' }).next).toMatchObject({ kind: 'check', node: 'lead-look' });
  });

  test('reads its earth against a limit that a meter can judge, and leaves the test of it to a competent person', () => {
    expect(findNode(tree, 'earth-path')).toMatchObject({ target: { target: 'earth-quick-look' } });
    const owners = tree.nodes.filter((node) => JSON.stringify(node).includes('"earth-continuity"'));
    expect(owners).toEqual([]);
    expect(listParagraphs(library.targets.get('earth-quick-look')?.prose ?? []).join(' ')).toMatch(/belongs to a competent person/);
  });

  const alone = { 'lead-look': 'whole', 'earth-path': 'in', 'outside-try': 'stays' };
  test.each([
    [alone, []],
    [{ ...alone, character: 'hum', 'brick-swap': 'stays' }, []],
    [{ ...alone, character: 'hum', 'brick-swap': 'stays', 'supply-look': 'clean' }, ['reservoir-dry', 'bypass-dry']],
  ])('all leads off and still there: no lead is suspected, nor looked at next (%#)', (answers, did) => {
    const { causes, next } = assess(answers, did);
    const found = causes.filter(({ id }) => leadFaults.includes(id));
    expect(found).toHaveLength(leadFaults.length);
    for (const { id, probability } of found) expect(probability, id).toBeLessThan(0.03);
    expect(['lead-screen', 'socket-moved']).not.toContain('node' in next ? next.node : undefined);
  });
});

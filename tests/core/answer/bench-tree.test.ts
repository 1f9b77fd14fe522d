import { describe, expect, it } from 'vitest';
import { loadLibrary } from '#build/library.ts';
import { makeWalkData, openWalkData, type Walk, type WalkData } from '#core/answer/bench-tree.ts';
import type { InstrumentClass } from '#core/model/instrument-class.ts';
import { linksFrom, needsOf, nodeProse, targetsOf } from '#core/model/node.ts';
import { judgeEntry, readEntry } from '#core/reading/judge-reading.ts';

const library = loadLibrary();
const trees = [...library.trees.values()];

/** As a page reads it: printed by the build, parsed by the browser. */
function sendThroughJson(slug: string): Walk {
  const tree = library.trees.get(slug);
  if (tree === undefined) throw new Error(`No tree ${slug}`);
  const data: WalkData = JSON.parse(JSON.stringify(makeWalkData(tree, library)));
  const classes: readonly InstrumentClass[] = JSON.parse(JSON.stringify([...library.instrumentClasses.values()]));
  return openWalkData(data, classes);
}

describe('a tree as its data file carries it', () => {
  it.each(trees.map(({ slug }) => slug))('keeps every node, way on and reference, and no sentence: %s', (slug) => {
    const { tree, references } = sendThroughJson(slug);
    const whole = library.trees.get(slug);

    expect(tree.nodes.map(({ id, kind, title }) => ({ id, kind, title }))).toEqual(
      whole?.nodes.map(({ id, kind, title }) => ({ id, kind, title })),
    );
    expect(tree.nodes.flatMap(linksFrom)).toEqual(whole?.nodes.flatMap(linksFrom));
    expect(tree.nodes.flatMap(nodeProse)).toEqual([]);
    const lost = tree.nodes.flatMap((node) => [
      ...targetsOf(node).filter((target) => !references.targets.has(target)),
      ...needsOf(node).filter((setup) => !references.setups.has(setup)),
      ...node.cautions.filter((caution) => !references.cautions.has(caution)),
    ]);
    expect(lost).toEqual([]);
  });

  it('judges a reading as the whole library does', () => {
    const { references } = sendThroughJson('psu-5v-low');
    const judge = ({
      targets,
      instrumentClasses,
    }: Pick<Walk['references'], 'targets' | 'instrumentClasses'>): unknown => {
      const target = targets.get('rail-5v-at-chip');
      if (target === undefined) throw new Error('no target');
      return judgeEntry(readEntry(['4.71'], target), target, instrumentClasses.get('multimeter-2000'), [
        ...instrumentClasses.values(),
      ]);
    };

    expect(judge(references)).toEqual(judge(library));
    expect(judge(references)).toMatchObject({ kind: 'judgement' });
  });
});

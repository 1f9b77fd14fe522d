import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createMeasureText, sheetFontFile } from '#build/graphs.ts';
import { loadLibrary } from '#build/library.ts';
import { buildDecisionGraph } from '#core/figure/decision-graph.ts';
import { arrangeLadder } from '#core/figure/ladder.ts';
import type { Sheet } from '#core/figure/sheet.ts';
import type { FaultTree } from '#core/model/fault-tree.ts';
import { arbitraryFaultTree } from '../../arbitraries/fault-tree.ts';
import { makeCause, makeCheck, makeHandOver, makeTree } from '../../arbitraries/make-tree.ts';

const measure = createMeasureText(sheetFontFile);
const arrange = (tree: FaultTree): Sheet => arrangeLadder(buildDecisionGraph(tree), measure);

/** `far` is reached from two checks, and so is `lamp`; `first` leads past `second`. */
const sample = makeTree([
  makeCheck('first', { low: 'lamp', in: 'second', none: 'far' }),
  makeCheck('second', { yes: 'fuse', no: 'far' }),
  makeCheck('far', { good: 'leave', bad: 'lamp' }),
  makeCause('lamp'),
  makeCause('fuse'),
  makeHandOver('leave'),
]);

describe('arrangeLadder', () => {
  it('puts checks under each other, and every end at the first answer that leads to it', () => {
    const { nodes } = arrange(sample);

    expect(nodes.toSorted((one, other) => one.top - other.top).map(({ node }) => node.id)).toEqual([
      'first',
      'lamp',
      'second',
      'fuse',
      'far',
      'leave',
    ]);
  });

  it('cuts a line that would run past others, with the same number at both ends and the title where it ends', () => {
    const { connectors } = arrange(sample);
    const told = connectors.map(({ node, number, lines }) => `${number} ${node.id} ${lines.length > 0 ? 'out' : 'in'}`);

    expect(told.toSorted()).toEqual(['1 lamp in', '1 lamp out', '2 far in', '2 far out']);
  });

  it('fits a phone of 390 pixels with every shipped tree, in type of 12 pixels or more', () => {
    const trees = [...loadLibrary().trees.values()];

    expect(trees.length).toBeGreaterThan(0);
    // 390 less the page's margin of 16 on each side; the type of a sheet is 13 and 15 pixels at its natural size.
    for (const tree of trees) expect(arrange(tree).width, tree.slug).toBeLessThanOrEqual(358);
  });

  it('holds every node and every edge once, whatever the tree', () => {
    fc.assert(
      fc.property(arbitraryFaultTree(), (tree) => {
        const graph = buildDecisionGraph(tree);
        const { nodes, edges } = arrange(tree);

        expect(nodes.map(({ node }) => node.id).toSorted()).toEqual(graph.nodes.map(({ id }) => id).toSorted());
        expect(new Set(edges.map(({ edge }) => edge))).toEqual(new Set(graph.edges));
        expect(edges).toHaveLength(graph.edges.length);
      }),
    );
  });

  it('joins each end of a line to the node it belongs to, by a line or by a number', () => {
    fc.assert(
      fc.property(arbitraryFaultTree(), (tree) => {
        const { nodes, edges, connectors } = arrange(tree);
        for (const { edge, points } of edges) {
          const from = nodes.find(({ node }) => node.id === edge.from);
          const to = nodes.find(({ node }) => node.id === edge.to);
          const tip = points.at(-1);

          expect(points[0]?.y).toBe((from?.top ?? 0) + (from?.symbol.height ?? 0));
          const circle = connectors.find(({ node, lines, y }) => node === to?.node && lines.length > 0 && y === tip?.y);
          const isAtHead = tip?.y === to?.top;
          const isAtSide = tip?.x === to?.left && tip?.y === (to?.top ?? 0) + (to?.symbol.height ?? 0) / 2;
          expect(isAtHead || isAtSide || circle !== undefined).toBe(true);
          if (!isAtHead && !isAtSide) {
            expect(
              connectors.filter(({ number, lines }) => number === circle?.number && lines.length === 0),
            ).toHaveLength(1);
          }
        }
      }),
    );
  });

  it('draws a draft that runs in circles and holds steps that nothing leads to', () => {
    const tree = makeTree([
      makeCheck('one', { yes: 'two', no: 'lamp' }),
      makeCheck('two', { yes: 'one', no: 'nowhere' }),
      makeCheck('loose', { yes: 'lamp' }),
      makeCause('lamp'),
      makeCause('alone'),
    ]);

    expect(arrange(tree).nodes).toHaveLength(5);
    expect(arrange(makeTree([])).nodes).toEqual([]);
  });
});

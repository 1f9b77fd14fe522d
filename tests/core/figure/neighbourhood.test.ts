import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { buildDecisionGraph } from '#core/figure/decision-graph.ts';
import { arrangeNeighbourhood, findNeighbourhood } from '#core/figure/neighbourhood.ts';
import { arbitraryFaultTree } from '../../arbitraries/fault-tree.ts';
import { makeCause, makeCheck, makeTree } from '../../arbitraries/make-tree.ts';

const graph = buildDecisionGraph(
  makeTree([
    makeCheck('first', { yes: 'second', no: 'lamp' }),
    makeCheck('second', { yes: 'third', no: 'fuse', maybe: 'lamp' }),
    makeCheck('third', { yes: 'fuse', no: 'lamp' }),
    makeCause('fuse'),
    makeCause('lamp'),
  ]),
);

describe('findNeighbourhood', () => {
  it('keeps the node, one step before and one step after, and only the edges that touch it', () => {
    const near = findNeighbourhood(graph, 'second');

    expect(near.nodes.map((node) => node.id)).toEqual(['first', 'second', 'third', 'fuse', 'lamp']);
    expect(near.edges.map((edge) => `${edge.from} ${edge.label} ${edge.to}`)).toEqual([
      'first yes second',
      'second yes third',
      'second no fuse',
      'second maybe lamp',
    ]);
    expect(near.start).toBe('first');
  });

  it('keeps the numbers of the whole and forgets the start where it is out of sight', () => {
    const near = findNeighbourhood(graph, 'fuse');

    expect(near.nodes.map((node) => node.index)).toEqual([1, 2, 3]);
    expect(near.start).toBeUndefined();
  });

  it('is empty for an id that the graph lacks', () => {
    expect(findNeighbourhood(graph, 'nobody').nodes).toEqual([]);
  });

  it('holds every edge of the graph in the neighbourhoods of exactly its two ends', () => {
    fc.assert(
      fc.property(arbitraryFaultTree(), (tree) => {
        const whole = buildDecisionGraph(tree);
        const counted = whole.nodes.flatMap((node) => findNeighbourhood(whole, node.id).edges);

        for (const edge of whole.edges) expect(counted.filter((one) => one === edge)).toHaveLength(2);
      }),
    );
  });
});

/** 0.42 em a letter, about the mean of the shipped font. */
const measure = (text: string, size: number): number => 0.42 * size * Array.from(text).length;

describe('arrangeNeighbourhood', () => {
  it('places every neighbour once, clear of the others, and a phone shows it whole at five sixths of its size or more', () => {
    fc.assert(
      fc.property(arbitraryFaultTree(), (tree) => {
        const graph = buildDecisionGraph(tree);
        for (const { id } of graph.nodes) {
          const sheet = arrangeNeighbourhood(graph, id, measure);
          const near = findNeighbourhood(graph, id);

          expect(sheet.nodes.map((placed) => placed.node.id).sort()).toEqual(near.nodes.map((node) => node.id).sort());
          expect(sheet.edges).toHaveLength(near.edges.length);
          // The page scales what is wider than its column, 358 pixels on a phone; shipped trees stay below 320.
          expect(sheet.width).toBeLessThanOrEqual(430);
          for (const [index, placed] of sheet.nodes.entries()) {
            const next = sheet.nodes[index + 1];
            if (next !== undefined) expect(placed.top + placed.symbol.height).toBeLessThan(next.top);
            expect(placed.top + placed.symbol.height).toBeLessThan(sheet.height);
          }
        }
      }),
    );
  });

  it('draws only upright and level strokes, from the side or foot of one node to the side or head of the other', () => {
    fc.assert(
      fc.property(arbitraryFaultTree(), (tree) => {
        const graph = buildDecisionGraph(tree);
        for (const { id } of graph.nodes) {
          for (const { points } of arrangeNeighbourhood(graph, id, measure).edges) {
            for (const [index, point] of points.entries()) {
              const next = points[index + 1];
              if (next !== undefined) expect(point.x === next.x || point.y === next.y).toBe(true);
            }
          }
        }
      }),
    );
  });

  it('gives an empty sheet for an id that the graph lacks', () => {
    const graph = buildDecisionGraph(makeTree([makeCause('only')]));

    expect(arrangeNeighbourhood(graph, 'Nobody', measure).nodes).toEqual([]);
  });
});

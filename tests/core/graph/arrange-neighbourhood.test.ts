import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { arrangeNeighbourhood } from '#core/graph/arrange-neighbourhood.ts';
import { buildDecisionGraph } from '#core/graph/decision-graph.ts';
import { findNeighbourhood } from '#core/graph/neighbourhood.ts';
import { arbitraryFaultTree } from '../../arbitraries/fault-tree.ts';
import { makeCause, makeTree } from '../../arbitraries/make-tree.ts';

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

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { buildDecisionGraph } from '#core/graph/decision-graph.ts';
import { findNeighbourhood } from '#core/graph/neighbourhood.ts';
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

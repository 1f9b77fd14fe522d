import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { buildDecisionGraph } from '#core/figure/decision-graph.ts';
import { arbitraryFaultTree } from '../../arbitraries/fault-tree.ts';
import { makeCause, makeCheck, makePath, makeTree } from '../../arbitraries/make-tree.ts';

describe('buildDecisionGraph', () => {
  it('labels an edge with the words of its outcome, in plain letters', () => {
    const tree = makeTree([
      makeCheck('chips', { 'low none': 'dead', 'all-alike': 'fine' }),
      makeCause('dead', { title: 'Chip dead' }),
      makeCause('fine'),
    ]);

    const graph = buildDecisionGraph(tree);

    expect(graph.start).toBe('chips');
    expect(graph.nodes[1]).toEqual({ index: 1, id: 'dead', kind: 'cause', title: 'Chip dead' });
    expect(graph.edges).toEqual([
      { from: 'chips', to: 'dead', label: 'low, none' },
      { from: 'chips', to: 'fine', label: 'all alike' },
    ]);
  });

  it('labels the ways out of a path with its stages and with good', () => {
    const tree = makeTree([
      makePath('amplifier', { 'input pin': 'coupling', 'output pin': 'chip' }, 'speaker'),
      makeCause('coupling'),
      makeCause('chip'),
      makeCause('speaker'),
    ]);

    expect(buildDecisionGraph(tree).edges).toEqual([
      { from: 'amplifier', to: 'coupling', label: 'input pin' },
      { from: 'amplifier', to: 'chip', label: 'output pin' },
      { from: 'amplifier', to: 'speaker', label: 'good' },
    ]);
  });

  it('joins parallel ways into one edge, in the order of the file', () => {
    const tree = makeTree([
      makeCheck('rail', { low: 'short', in: 'fine', none: 'short' }),
      makeCause('short'),
      makeCause('fine'),
    ]);

    expect(buildDecisionGraph(tree).edges).toEqual([
      { from: 'rail', to: 'short', label: 'low, none' },
      { from: 'rail', to: 'fine', label: 'in' },
    ]);
  });

  it('leaves out ways to nodes that are not there, and to the node itself', () => {
    const tree = makeTree([makeCheck('rail', { low: 'nowhere', in: 'fine', none: 'rail' }), makeCause('fine')]);

    expect(buildDecisionGraph(tree).edges).toEqual([{ from: 'rail', to: 'fine', label: 'in' }]);
  });

  it('gives an empty graph for a tree without nodes', () => {
    expect(buildDecisionGraph(makeTree([]))).toEqual({ title: 'Sample tree', start: undefined, nodes: [], edges: [] });
  });

  it('holds every node of the tree once, in its order', () => {
    fc.assert(
      fc.property(arbitraryFaultTree(), (tree) => {
        expect(buildDecisionGraph(tree).nodes.map((node) => node.id)).toEqual(tree.nodes.map((node) => node.id));
      }),
    );
  });

  it('has both ends of every edge, and no two edges between the same ends', () => {
    fc.assert(
      fc.property(arbitraryFaultTree(), (tree) => {
        const graph = buildDecisionGraph(tree);
        const ids = new Set(graph.nodes.map((node) => node.id));
        const pairs = graph.edges.map((edge) => `${edge.from} ${edge.to}`);

        expect(graph.edges.every((edge) => ids.has(edge.from) && ids.has(edge.to))).toBe(true);
        expect(new Set(pairs).size).toBe(pairs.length);
      }),
    );
  });

  it('keeps every word of every outcome on some edge', () => {
    fc.assert(
      fc.property(arbitraryFaultTree(), (tree) => {
        const graph = buildDecisionGraph(tree);
        for (const node of tree.nodes) {
          if (node.kind !== 'check') continue;
          for (const outcome of node.outcomes) {
            const edge = graph.edges.find((one) => one.from === node.id && one.to === outcome.to);
            for (const word of outcome.when) expect(edge?.label.split(', ')).toContain(word.replaceAll('-', ' '));
          }
        }
      }),
    );
  });
});

import { describe, expect, it } from 'vitest';
import { arrangeSheet, type Layout } from '#core/figure/arrange-sheet.ts';
import { buildDecisionGraph } from '#core/figure/decision-graph.ts';
import { makeCause, makeCheck, makeTree } from '../../arbitraries/make-tree.ts';

/** 0.42 em a letter, about the mean of the shipped font. */
const measure = (text: string, size: number): number => 0.42 * size * Array.from(text).length;

/** Two rows of checks over a row of ends; `jump` passes the second check on the right. */
const graph = buildDecisionGraph(
  makeTree([
    makeCheck('first', { on: 'second', jump: 'far' }),
    makeCheck('second', { yes: 'near', no: 'far' }),
    makeCause('near'),
    makeCause('far'),
  ]),
);
const layout = (passAt: number): Layout => ({
  nodes: new Map([
    ['first', { x: 200, y: 0 }],
    ['second', { x: 200, y: 100 }],
    ['near', { x: 100, y: 200 }],
    ['far', { x: 400, y: 200 }],
  ]),
  turns: [
    [{ x: 200, y: 50 }],
    [
      { x: passAt, y: 50 },
      { x: passAt, y: 100 },
      { x: passAt, y: 150 },
    ],
    [{ x: 100, y: 150 }],
    [{ x: 300, y: 150 }],
  ],
});

describe('arrangeSheet', () => {
  it('draws lines from the middle of a foot to the middle of a head, upright and level', () => {
    const sheet = arrangeSheet(graph, layout(400), measure);
    for (const { edge, points } of sheet.edges) {
      const from = sheet.nodes.find((placed) => placed.node.id === edge.from);
      const to = sheet.nodes.find((placed) => placed.node.id === edge.to);
      expect(points[0]).toEqual({
        x: (from?.left ?? 0) + (from?.symbol.width ?? 0) / 2,
        y: (from?.top ?? 0) + (from?.symbol.height ?? 0),
      });
      expect(points.at(-1)).toEqual({ x: (to?.left ?? 0) + (to?.symbol.width ?? 0) / 2, y: to?.top });
      for (const [index, point] of points.entries()) {
        const before = points[index - 1] ?? point;
        expect(point.x === before.x || point.y === before.y).toBe(true);
        expect(point.y).toBeGreaterThanOrEqual(before.y);
      }
    }
  });

  it('sets the answer of a long line beside its question where there is room', () => {
    const labels = arrangeSheet(graph, layout(400), measure).edges.map((placed) => placed.label);

    expect(labels[1]?.y).toBe(labels[0]?.y);
  });

  it('leaves it further down where another answer stands in the way', () => {
    const labels = arrangeSheet(graph, layout(220), measure).edges.map((placed) => placed.label);

    expect(labels[1]?.y).toBeGreaterThan(labels[0]?.y ?? Number.POSITIVE_INFINITY);
  });

  it('puts a dot where a line branches and none where it only turns', () => {
    const sheet = arrangeSheet(graph, layout(400), measure);
    const turns = sheet.edges.flatMap(({ points }) => points.slice(1, -1));

    expect(sheet.joints.length).toBeGreaterThan(0);
    for (const joint of sheet.joints) {
      const strokes = new Set(
        sheet.edges.flatMap(({ points }) =>
          points.flatMap((point, index) => {
            const next = points[index + 1];
            if (next === undefined) return [];
            const isOn =
              Math.min(point.x, next.x) <= joint.x &&
              joint.x <= Math.max(point.x, next.x) &&
              Math.min(point.y, next.y) <= joint.y &&
              joint.y <= Math.max(point.y, next.y);
            if (!isOn) return [];
            return [
              ...(Math.min(point.x, next.x) < joint.x ? ['left'] : []),
              ...(Math.max(point.x, next.x) > joint.x ? ['right'] : []),
              ...(Math.min(point.y, next.y) < joint.y ? ['up'] : []),
              ...(Math.max(point.y, next.y) > joint.y ? ['down'] : []),
            ];
          }),
        ),
      );
      expect(strokes.size).toBeGreaterThanOrEqual(3);
    }
    expect(turns.length).toBeGreaterThan(sheet.joints.length);
  });

  it('leaves room for the start mark over the first symbol only where the start is on the sheet', () => {
    const whole = arrangeSheet(graph, layout(400), measure);
    const part = arrangeSheet({ ...graph, start: undefined }, layout(400), measure);

    expect(whole.startMark?.points.at(-1)?.y).toBe(whole.nodes[0]?.top);
    expect(part.startMark).toBeUndefined();
    expect(part.height).toBeLessThan(whole.height);
  });

  it('draws a draft that runs in circles, its arrow pointing up', () => {
    const circle = buildDecisionGraph(
      makeTree([makeCheck('one', { on: 'two' }), makeCheck('two', { back: 'one', on: 'end-a' }), makeCause('end-a')]),
    );
    const sheet = arrangeSheet(
      circle,
      {
        nodes: new Map([
          ['one', { x: 100, y: 0 }],
          ['two', { x: 100, y: 100 }],
          ['end-a', { x: 100, y: 200 }],
        ]),
        turns: [[{ x: 60, y: 50 }], [{ x: 140, y: 50 }], [{ x: 100, y: 150 }]],
      },
      measure,
    );
    const back = sheet.edges.find(({ edge }) => edge.to === 'one');

    expect(back?.points.at(-1)?.y).toBeLessThan(back?.points[0]?.y ?? 0);
  });

  it('gives a sheet without anything on it for a graph without nodes', () => {
    const sheet = arrangeSheet(buildDecisionGraph(makeTree([])), { nodes: new Map(), turns: [] }, measure);

    expect([sheet.nodes, sheet.edges, Number.isFinite(sheet.width), Number.isFinite(sheet.height)]).toEqual([
      [],
      [],
      true,
      true,
    ]);
  });
});

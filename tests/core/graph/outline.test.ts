import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { buildDecisionGraph } from '#core/graph/decision-graph.ts';
import { buildOutline, type OutlineEntry } from '#core/graph/outline.ts';
import { arbitraryFaultTree } from '../../arbitraries/fault-tree.ts';
import { makeCause, makeCheck, makeTree } from '../../arbitraries/make-tree.ts';

function listEntries(entries: readonly OutlineEntry[]): readonly OutlineEntry[] {
  return entries.flatMap((entry) => [
    entry,
    ...listEntries(entry.answers.flatMap((answer) => (answer.kind === 'entry' ? [answer.entry] : []))),
  ]);
}

describe('buildOutline', () => {
  it('nests what an answer leads to and refers to what is already listed', () => {
    const outline = buildOutline(
      buildDecisionGraph(
        makeTree([
          makeCheck('lamp', { yes: 'rail', no: 'fuse' }),
          makeCheck('rail', { low: 'fuse', in: 'chip' }),
          makeCause('fuse'),
          makeCause('chip'),
        ]),
      ),
    );
    const speak = (entry: OutlineEntry): string =>
      `${entry.number} ${entry.node.id}${entry.answers
        .map((answer) =>
          answer.kind === 'entry'
            ? ` [${answer.label}: ${speak(answer.entry)}]`
            : ` [${answer.label}: see ${answer.number} ${answer.node.id}]`,
        )
        .join('')}`;

    expect(outline.map(speak)).toEqual(['1 lamp [yes: 2 rail [low: 3 fuse] [in: 4 chip]] [no: see 3 fuse]']);
  });

  it('ends for a draft that runs in circles, and lists what nothing leads to', () => {
    const outline = buildOutline(
      buildDecisionGraph(
        makeTree([
          makeCheck('one', { on: 'two', off: 'end-a' }),
          makeCheck('two', { on: 'one', off: 'end-a' }),
          makeCause('end-a'),
          makeCause('alone'),
        ]),
      ),
    );

    expect(listEntries(outline).map((entry) => entry.node.id)).toEqual(['one', 'two', 'end-a', 'alone']);
    expect(outline.map((entry) => entry.node.id)).toEqual(['one', 'alone']);
  });

  it('lists every node once, numbered in the order of reading', () => {
    fc.assert(
      fc.property(arbitraryFaultTree(), (tree) => {
        const entries = listEntries(buildOutline(buildDecisionGraph(tree)));

        expect(entries.map((entry) => entry.node.id).sort()).toEqual(tree.nodes.map((node) => node.id).sort());
        expect(entries.map((entry) => entry.number)).toEqual(entries.map((_, index) => index + 1));
      }),
    );
  });

  it('says the same as the graph: one answer for each edge', () => {
    fc.assert(
      fc.property(arbitraryFaultTree(), (tree) => {
        const graph = buildDecisionGraph(tree);
        const said = listEntries(buildOutline(graph)).flatMap((entry) =>
          entry.answers.map((answer) => ({
            from: entry.node.id,
            to: answer.kind === 'entry' ? answer.entry.node.id : answer.node.id,
            label: answer.label,
          })),
        );

        expect(said).toHaveLength(graph.edges.length);
        expect(said).toEqual(expect.arrayContaining([...graph.edges]));
      }),
    );
  });

  it('refers only to entries that stand above', () => {
    fc.assert(
      fc.property(arbitraryFaultTree(), (tree) => {
        const entries = listEntries(buildOutline(buildDecisionGraph(tree)));
        const numbers = new Map(entries.map((entry) => [entry.node.id, entry.number]));
        for (const entry of entries) {
          let reached = entry.number;
          for (const answer of entry.answers) {
            if (answer.kind === 'entry') {
              expect(answer.entry.number).toBeGreaterThan(reached);
              reached = Math.max(...listEntries([answer.entry]).map((inner) => inner.number));
            } else {
              expect(answer.number).toBe(numbers.get(answer.node.id));
              expect(answer.number).toBeLessThanOrEqual(reached);
            }
          }
        }
      }),
    );
  });
});

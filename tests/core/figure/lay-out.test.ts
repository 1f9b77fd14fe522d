import { gzipSync } from 'node:zlib';
import fc from 'fast-check';
import { JSDOM } from 'jsdom';
import { describe, expect, it } from 'vitest';
import { createMeasureText, sheetFontFile } from '#build/graphs.ts';
import { buildDecisionGraph } from '#core/figure/decision-graph.ts';
import { tidyLabel } from '#core/figure/label.ts';
import { drawTree } from '#core/figure/lay-out.ts';
import type { DrawOptions } from '#core/figure/sheet.ts';
import type { FaultTree } from '#core/model/fault-tree.ts';
import { arbitraryFaultTree, arbitraryHostileTitle, hostileTitles } from '../../arbitraries/fault-tree.ts';
import { makeCause, makeCheck, makeTree } from '../../arbitraries/make-tree.ts';
import { wideTree } from '../../arbitraries/wide-tree.ts';

const options = { idPrefix: 'g1', findAddress: (id) => `/trees/no-sound/${id}/` } satisfies Partial<DrawOptions>;
const { window } = new JSDOM('');

const measure = createMeasureText(sheetFontFile);

function draw(tree: FaultTree, change: Partial<DrawOptions> = {}): string {
  return drawTree(tree, measure, { ...options, ...change });
}

/** Reads strictly: anything that is not well-formed XML throws. */
function parse(svg: string): Element {
  return new window.DOMParser().parseFromString(svg, 'image/svg+xml').documentElement;
}

function joinLines(element: Element): string {
  return [...element.querySelectorAll('tspan')].map((row) => row.textContent ?? '').join('');
}

describe('a drawn graph', () => {
  it('is the same to the byte when drawn again, and does not depend on what was drawn between', () => {
    const small = makeTree([makeCheck('on', { yes: 'fuse', no: 'lead' }), makeCause('fuse'), makeCause('lead')]);
    const first = draw(wideTree);
    draw(small);

    expect(draw(wideTree)).toBe(first);
    expect(drawTree(wideTree, createMeasureText(sheetFontFile), options)).toBe(first);
  });

  it('holds every node once, linked, named and marked with its kind', () => {
    const svg = parse(draw(wideTree));
    const links = [...svg.querySelectorAll('a')];

    expect(links.map((link) => link.getAttribute('data-node'))).toEqual(wideTree.nodes.map((node) => node.id));
    for (const node of wideTree.nodes) {
      const link = links.find((one) => one.getAttribute('data-node') === node.id);
      expect(link?.getAttribute('href')).toBe(`/trees/no-sound/${node.id}/`);
      expect(link?.getAttribute('class')).toBe(`node ${node.kind}`);
      expect(link?.getAttribute('aria-label')).toContain(`: ${node.title}`);
    }
    expect(svg.getAttribute('role')).toBe('group');
    expect(svg.getAttribute('aria-label')).toBe(`Decision graph: ${wideTree.title}`);
  });

  it('holds every edge once, with its words', () => {
    const svg = parse(draw(wideTree));
    const drawn = [...svg.querySelectorAll('g.edge')].map((edge) => ({
      from: edge.getAttribute('data-from'),
      to: edge.getAttribute('data-to'),
      words: joinLines(edge).replaceAll(' ', ''),
    }));

    expect(drawn).toEqual(
      buildDecisionGraph(wideTree).edges.map(({ from, to, label }) => ({ from, to, words: label.replaceAll(' ', '') })),
    );
  });

  it('marks the node where the reader is', () => {
    const svg = parse(draw(wideTree, { here: 'lamp' }));

    expect([...svg.querySelectorAll('.here')].map((node) => node.getAttribute('data-node'))).toEqual(['lamp']);
    expect(svg.querySelector('.here')?.getAttribute('aria-current')).toBe('page');
  });

  it('can stand beside another on one page: every id begins with the prefix it was given, and every reference is met', () => {
    const svg = draw(wideTree, { idPrefix: 'second' });
    const ids = [...svg.matchAll(/\sid="([^"]*)"/gu)].map((match) => match[1]);
    const references = [...svg.matchAll(/url\(#([^)]*)\)/gu)].map((match) => match[1]);

    expect(ids.length).toBeGreaterThan(0);
    expect(ids.every((id) => id?.startsWith('second-'))).toBe(true);
    expect(references.length).toBeGreaterThan(0);
    expect(references.every((reference) => ids.includes(reference))).toBe(true);
  });

  it('of 27 nodes is at most 2,000 pixels wide and well below 12 kB compressed', () => {
    const svg = draw(wideTree);

    expect(Number(parse(svg).getAttribute('width'))).toBeLessThanOrEqual(2000);
    expect(gzipSync(svg).length).toBeLessThan(6000);
  });

  it('shows a hostile title as it stands and lets nothing of it act', () => {
    for (const title of hostileTitles) {
      const tree = makeTree([
        makeCheck('first', { yes: 'second', no: 'third' }, { title }),
        makeCause('second', { title }),
        makeCause('third'),
      ]);
      const svg = parse(draw(tree, { name: title }));

      for (const node of svg.querySelectorAll('[data-node="first"], [data-node="second"]')) {
        expect(joinLines(node).replaceAll(' ', '')).toBe(tidyLabel(title).replaceAll(' ', ''));
      }
    }
  });

  it('holds no style, no script, no event attribute and no element but its own, whatever the titles', () => {
    fc.assert(
      fc.property(arbitraryFaultTree({ title: arbitraryHostileTitle, mostInner: 3, mostEnds: 4 }), (tree) => {
        const svg = parse(draw(tree));
        const all = [svg, ...svg.querySelectorAll('*')];
        const tags = new Set(all.map((element) => element.tagName));
        const attributes = new Set(all.flatMap((element) => element.getAttributeNames()));

        expect(
          [...tags].filter((tag) => !'svg defs pattern path g a rect text tspan'.split(' ').includes(tag)),
        ).toEqual([]);
        expect([...attributes].filter((name) => name === 'style' || name.startsWith('on'))).toEqual([]);
        expect([...svg.querySelectorAll('a')].every((a) => a.getAttribute('href')?.startsWith('/trees/'))).toBe(true);
        expect([...svg.querySelectorAll('[data-node]')]).toHaveLength(tree.nodes.length);
      }),
      { numRuns: 30 },
    );
  });

  it('draws only upright and level lines, and lets two lines share a stretch only where they leave or enter one node', () => {
    fc.assert(
      fc.property(arbitraryFaultTree({ mostInner: 7, mostEnds: 10 }), (tree) => {
        const svg = parse(draw(tree));
        const edges = [...svg.querySelectorAll('g.edge')].map(readStretches);
        for (const [index, one] of edges.entries()) {
          expect(one.stretches.length).toBeGreaterThan(0);
          for (const other of edges.slice(index + 1)) {
            if (one.from === other.from || one.to === other.to) continue;
            const shared = one.stretches.filter((stretch) =>
              other.stretches.some((rival) => lieOnEachOther(stretch, rival)),
            );
            expect(shared, `${one.from} to ${one.to} on ${other.from} to ${other.to}`).toEqual([]);
          }
        }
      }),
      { numRuns: 20 },
    );
  }, 180_000);
});

interface Stretch {
  readonly isLevel: boolean;
  /** Height of a level stretch, position across of an upright one. */
  readonly at: number;
  readonly start: number;
  readonly end: number;
}

function readStretches(edge: Element): { from: string | null; to: string | null; stretches: readonly Stretch[] } {
  const data = edge.querySelector('.line')?.getAttribute('d') ?? '';
  const [, startX, startY, rest] = /^M(-?\d+) (-?\d+)((?:[hv]-?\d+)+)$/u.exec(data) ?? [];
  expect(rest, data).toBeDefined();
  let [x, y] = [Number(startX), Number(startY)];
  const stretches = [...(rest ?? '').matchAll(/([hv])(-?\d+)/gu)].map(([, command, length]): Stretch => {
    const isLevel = command === 'h';
    const from = isLevel ? x : y;
    const to = from + Number(length);
    const at = isLevel ? y : x;
    if (isLevel) x = to;
    else y = to;
    return { isLevel, at, start: Math.min(from, to), end: Math.max(from, to) };
  });
  return { from: edge.getAttribute('data-from'), to: edge.getAttribute('data-to'), stretches };
}

/** Nearer than four pixels side by side for more than a pixel. */
function lieOnEachOther(one: Stretch, other: Stretch): boolean {
  return (
    one.isLevel === other.isLevel &&
    Math.abs(one.at - other.at) < 4 &&
    Math.min(one.end, other.end) - Math.max(one.start, other.start) > 1
  );
}

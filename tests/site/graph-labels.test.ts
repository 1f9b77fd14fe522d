import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { type Browser, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { createMeasureText, sheetFontFile } from '#build/graphs.ts';
import { buildDecisionGraph } from '#core/figure/decision-graph.ts';
import { arrangeLadder } from '#core/figure/ladder.ts';
import { drawTree } from '#core/figure/lay-out.ts';
import { arrangeNeighbourhood } from '#core/figure/neighbourhood.ts';
import { drawSheet } from '#core/figure/sheet.ts';
import type { FaultTree } from '#core/model/fault-tree.ts';
import { arbitraryFaultTree } from '../arbitraries/fault-tree.ts';
import { wideTree } from '../arbitraries/wide-tree.ts';
import { chromiumArguments, findChromium } from '../find-chromium.ts';
import { measureGraphLabels } from './graph-labels.ts';

const font = readFileSync('public/fonts/barlow-condensed-600.woff2').toString('base64');
const styles = readFileSync('src/styles/graph.css', 'utf8');

let browser: Browser;
let page: Page;
const measure = createMeasureText(sheetFontFile);

beforeAll(async () => {
  browser = await chromium.launch({
    // Widths of text as a reader's browser has them: without windows they are rounded otherwise.
    executablePath: findChromium({ isWhole: true }),
    args: [...chromiumArguments],
  });
  page = await browser.newPage({ viewport: { width: 2000, height: 1200 } });
});

afterAll(async () => {
  await browser.close();
});

async function show(...drawings: readonly string[]): Promise<void> {
  await page.setContent(
    `<!doctype html><title>Graphs</title><style>
      @font-face { font-family: Sheet; font-weight: 600; src: url(data:font/woff2;base64,${font}); }
      :root { --ink: #1c1b18; --paper: #fbf8ef; --signal: #c8401a; --rule: #bbb; }
      ${styles}</style>${drawings.join('')}`,
  );
}

function drawWhole(tree: FaultTree, idPrefix = 'whole'): string {
  return drawTree(tree, measure, { idPrefix, findAddress: (id) => `/trees/x/${id}/` });
}

function drawLadder(tree: FaultTree): string {
  const sheet = arrangeLadder(buildDecisionGraph(tree), measure);
  return drawSheet(sheet, { name: tree.title, idPrefix: 'ladder', findAddress: (id) => `/trees/x/${id}/` });
}

function drawAllNeighbourhoods(tree: FaultTree): readonly string[] {
  const graph = buildDecisionGraph(tree);
  return graph.nodes.map((node) =>
    drawSheet(arrangeNeighbourhood(graph, node.id, measure), {
      name: node.title,
      idPrefix: `near-${node.id}`,
      findAddress: (id) => `/trees/x/${id}/`,
      here: node.id,
    }),
  );
}

describe('labels of a drawn graph, measured in Chromium', () => {
  it('lie inside their symbols and clear of each other in a tree of 27 nodes', async () => {
    await show(drawWhole(wideTree));

    expect(await measureGraphLabels(page)).toEqual([]);
  });

  it('lie inside their symbols and clear of each other in the ladder of that tree', async () => {
    await show(drawLadder(wideTree));

    expect(await measureGraphLabels(page)).toEqual([]);
  });

  it('lie inside their symbols in the neighbourhood of every node of that tree', async () => {
    await show(...drawAllNeighbourhoods(wideTree));

    expect(await measureGraphLabels(page)).toEqual([]);
  });

  it('lie inside their symbols and clear of each other in any small tree', async () => {
    await fc.assert(
      fc.asyncProperty(arbitraryFaultTree({ mostInner: 8, mostEnds: 12 }), async (tree) => {
        await show(drawWhole(tree), drawLadder(tree), ...drawAllNeighbourhoods(tree));
        expect(await measureGraphLabels(page)).toEqual([]);
      }),
      { numRuns: 25 },
    );
  }, 180_000);

  it('are as wide as the build measured them, to half a pixel', async () => {
    const drawing = drawWhole(wideTree);
    await show(drawing);
    await page.evaluate(() => document.fonts.load('600 15px Sheet'));
    const rows = await page.evaluate(() =>
      [...document.querySelectorAll('.node tspan')].flatMap((row) =>
        row instanceof SVGTSpanElement ? [{ text: row.textContent ?? '', width: row.getComputedTextLength() }] : [],
      ),
    );

    expect(rows.length).toBeGreaterThan(40);
    for (const row of rows) expect(Math.abs(row.width - measure(row.text, 15)), row.text).toBeLessThan(0.5);
  });

  it.each([
    [
      'label outside its symbol',
      (svg: string) => svg.replace('>Regulator dead<', '>Regulator dead and a good deal too long<'),
    ],
    ['labels overlap', (svg: string) => svg.replaceAll(/<tspan x="\d+"/gu, '<tspan x="300"')],
    ['label outside the sheet', (svg: string) => svg.replaceAll(/(<tspan x="\d+" y=")[\d.]+/gu, '$1-40')],
    [
      'line through a label',
      (svg: string) => svg.replaceAll(/class="line" d="M(\d+) (\d+)/gu, 'class="line" d="M0 0L1900 900M$1 $2'),
    ],
    ['symbols overlap', (svg: string) => svg.replaceAll(/(class="symbol" d="M)\d+ \d+/gu, '$1300 300')],
    [
      'line through a symbol',
      (svg: string) => svg.replaceAll(/class="line" d="M(\d+) (\d+)/gu, 'class="line" d="M0 0L1900 900M$1 $2'),
    ],
  ])('are reported where a drawing is spoilt: %s', async (kind, spoil) => {
    await show(spoil(drawWhole(wideTree)));

    expect((await measureGraphLabels(page)).map((problem) => problem.kind)).toContain(kind);
  });

  it('are not judged by a font that is not there', async () => {
    await page.setContent(`<title>No font</title>${drawWhole(wideTree)}`);

    expect((await measureGraphLabels(page)).map((problem) => problem.kind)).toContain('font not loaded');
  });
});

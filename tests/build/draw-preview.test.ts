import { JSDOM } from 'jsdom';
import { PNG } from 'pngjs';
import { describe, expect, it } from 'vitest';
import { createMeasureText, sheetFontFile } from '#build/graphs.ts';
import { drawPreview, type PreviewMatter } from '#build/draw-preview.ts';
import { renderPreview } from '#build/render-preview.ts';
import { createTraceText } from '#build/render-preview.ts';
import { writeIndexedPng } from '#build/render-preview.ts';
import { loadLibrary } from '#build/library.ts';

const library = loadLibrary();
const matters = [...library.trees.values()].flatMap((tree): PreviewMatter[] => {
  const blockTitle = library.blocks.get(tree.block)?.title ?? '';
  const causes = tree.nodes.flatMap((node) => (node.kind === 'cause' ? [node] : []));
  return [undefined, ...causes].map((cause) => ({ tree, blockTitle, cause, site: library.site }));
});
const measure = createMeasureText(sheetFontFile);

interface Line {
  readonly text: string;
  readonly right: number;
  readonly baseline: number;
}

/** The lines of a preview, as the drawing asks for them. */
function linesOf(matter: PreviewMatter): readonly Line[] {
  const lines: Line[] = [];
  const trace = (text: string, { x, y, size }: { x: number; y: number; size: number }): string => {
    lines.push({ text, right: x + measure(text, size), baseline: y });
    return '';
  };
  drawPreview(matter, { trace, measure });
  return lines;
}

function joinWords(text: string): string {
  return text.replaceAll(' ', '');
}

describe('every preview', () => {
  it.each(matters.map((matter) => [`${matter.tree.slug} ${matter.cause?.id ?? ''}`, matter] as const))(
    'shows symptom, cause and block in full, inside its frame: %s',
    (_name, matter) => {
      const lines = linesOf(matter);
      // A line may break after a hyphen, so white space says nothing here.
      const said = joinWords(lines.map(({ text }) => text).join(''));

      expect(said).toContain(joinWords(matter.tree.title));
      expect(said).toContain(joinWords(matter.cause?.title ?? `“${matter.tree.symptoms[0]}”`));
      expect(said).toContain(joinWords(matter.blockTitle));
      // The miniature begins at 800 less half a terminal; the title block takes the whole width.
      expect(
        lines.filter(({ right, baseline }) => right > (baseline > 506 ? 1172 : 780)).map(({ text }) => text),
      ).toEqual([]);
    },
  );

  it('draws each node of its tree once, and fills the cause alone with the signal colour', () => {
    const matter = matters.find(({ cause }) => cause?.id === 'reservoir-dry');
    if (matter === undefined) throw new Error('No such cause.');
    const svg = drawPreview(matter, { trace: () => '', measure });
    const drawing = new JSDOM(svg, { contentType: 'image/svg+xml' }).window.document;
    const symbols = [...drawing.querySelectorAll('rect[rx], path[d$="Z"], rect[width="32"]')];

    expect(symbols).toHaveLength(matter.tree.nodes.length);
    expect(symbols.filter((symbol) => symbol.getAttribute('fill') === '#a8330a')).toHaveLength(1);
  });

  it('has outlines of letters in place of a font, and needs none to be drawn', () => {
    const svg = drawPreview(matters[0] ?? fail(), { trace: createTraceText(sheetFontFile), measure });

    expect(svg).not.toMatch(/<text|font-family|href/);
    expect(svg.match(/<path transform/gu)?.length).toBeGreaterThan(40);
  });

  it('is the same every time', () => {
    const matter = matters[1] ?? fail();

    expect(Buffer.from(renderPreview(matter)).equals(Buffer.from(renderPreview(matter)))).toBe(true);
  });
});

function fail(): never {
  throw new Error('There are no trees.');
}

// Read back by pngjs, which is not ours.
describe('a PNG with a palette', () => {
  it('holds exactly the pixels it was given while they have few colours', () => {
    const pixels = Uint8Array.from({ length: 7 * 5 * 4 }, (_, at) => (at % 4 === 3 ? 255 : (at * 16) % 256));
    const { width, height, data } = PNG.sync.read(Buffer.from(writeIndexedPng({ width: 7, height: 5, pixels })));

    expect([width, height]).toEqual([7, 5]);
    expect([...data]).toEqual([...pixels]);
  });

  it('draws more than 256 colours together, none of them far off', () => {
    const pixels = Uint8Array.from({ length: 64 * 64 * 4 }, (_, at) => {
      const pixel = at >> 2;
      return [pixel % 64, 4 * (pixel >> 6), 128, 255][at % 4] ?? 0;
    });
    const { data } = PNG.sync.read(Buffer.from(writeIndexedPng({ width: 64, height: 64, pixels })));
    const farthest = data.reduce((most, value, at) => Math.max(most, Math.abs(value - (pixels[at] ?? 0))), 0);

    expect(new Set(new Uint32Array(new Uint8Array(data).buffer)).size).toBeLessThanOrEqual(256);
    expect(farthest).toBeGreaterThan(0);
    expect(farthest).toBeLessThan(16);
  });
});

import { gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { loadLibrary } from '#build/library.ts';
import { tracePoints } from '#core/figure/trace.ts';
import { seenAt } from '#core/model/picture.ts';
import { cellsOf, drawPicture } from '#core/page/draw-picture.ts';
import { printHtml } from '#core/page/markup.ts';

const pictures = [...loadLibrary().pictures.values()];

describe('the pictures', () => {
  it('are at least forty, some for each thing that is looked at', () => {
    expect(pictures.length).toBeGreaterThanOrEqual(40);
    for (const seen of Object.keys(seenAt)) expect(pictures.map((picture) => picture.seen)).toContain(seen);
  });

  it.each(pictures.map((picture) => [picture.slug, picture] as const))('%s has at most 3 kB gzip', (_, picture) => {
    expect(gzipSync(printHtml(drawPicture(picture, 200, true))).length).toBeLessThanOrEqual(3000);
  });

  it('are told by words to who does not see them, and silent beside words', () => {
    const picture = pictures.find(({ slug }) => slug === 'ripple-half');
    if (picture === undefined) throw new Error('No ripple-half');

    expect(drawPicture(picture, 200, true).attributes['aria-label']).toMatch(
      /^Every second wave missing\. .*\. 2 V\/div, 5 ms\/div, dc\.$/u,
    );
    expect(drawPicture(picture, 100, false).attributes).toMatchObject({ 'aria-hidden': 'true', height: '60' });
  });

  it('differ from each other: no two traces run through the same points at the same settings', () => {
    const drawn = pictures.flatMap(({ slug, shown }) =>
      shown.kind === 'trace' && !slug.endsWith('-flat') && !slug.endsWith('-stuck') && !slug.endsWith('-none')
        ? [JSON.stringify([shown.volts, shown.time, shown.zero, tracePoints(shown)])]
        : [],
    );

    expect(new Set(drawn).size).toBe(drawn.length);
  });

  it('of traces stay on the graticule but for what is cut on purpose', () => {
    const outside = pictures.flatMap(({ slug, shown }) => {
      if (shown.kind !== 'trace') return [];
      const heights = tracePoints(shown).map(([, volts]) => shown.zero + volts / shown.volts);
      return Math.min(...heights) < -0.01 || Math.max(...heights) > 6.01 ? [slug] : [];
    });

    expect(outside).toEqual([]);
  });

  it('of a screen tile their rows over 32 by 24 cells, shifted and rolled', () => {
    const screen = { kind: 'screen', rolled: 0, border: false, noise: 0, shifts: [] } as const;

    expect(cellsOf({ ...screen, rows: ['#.'] })).toEqual(Array.from({ length: 24 }, () => '#.'.repeat(16)));
    expect(cellsOf({ ...screen, rows: ['#...'], shifts: [0, 1] })[1]).toBe('.#..'.repeat(8));
    expect(cellsOf({ ...screen, rows: ['#', '.', '.'], rolled: 1 }).slice(0, 3)).toEqual([
      '.'.repeat(32),
      '.'.repeat(32),
      '#'.repeat(32),
    ]);
  });

  it('hold nothing but shapes and words: no code, no address, no style', () => {
    for (const picture of pictures) {
      expect(printHtml(drawPicture(picture, 200, true))).not.toMatch(/script|style=|href|url\(|NaN|Infinity/u);
    }
    const [first] = pictures;
    const typed = '"><img src=x onerror=alert(1)>';
    expect(first && printHtml(drawPicture({ ...first, title: typed, says: typed }, 200, true))).not.toContain('<img');
  });
});

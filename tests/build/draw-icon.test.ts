import { PNG } from 'pngjs';
import { describe, expect, it } from 'vitest';
import { drawIcon, iconPictures, writeManifest } from '#build/draw-icon.ts';
import { loadLibrary } from '#build/library.ts';
import { usualColours } from '#core/model/site.ts';

interface Icon {
  readonly src: string;
  readonly sizes: string;
  readonly type: string;
  readonly purpose?: string;
}
const manifest: { readonly icons: readonly Icon[] } = JSON.parse(writeManifest(loadLibrary().site));

/** Paper, as the usual colours have it. */
const paper = [0xf6, 0xf2, 0xe8];

/** Pixels that are not paper, as distances from the middle in shares of the width. */
function inkDistances(png: PNG): readonly number[] {
  const found: number[] = [];
  for (let y = 0; y < png.height; y += 1) {
    for (let x = 0; x < png.width; x += 1) {
      const at = (y * png.width + x) * 4;
      if (paper.some((value, channel) => Math.abs((png.data[at + channel] ?? 0) - value) > 8)) {
        found.push(Math.hypot(x + 0.5 - png.width / 2, y + 0.5 - png.height / 2) / png.width);
      }
    }
  }
  return found;
}

describe('the pictures of the icon', () => {
  it.each(iconPictures)('$name has its size, is opaque and shows the drawing', (picture) => {
    const png = PNG.sync.read(Buffer.from(drawIcon(picture, usualColours.light)));
    expect([png.width, png.height]).toEqual([picture.sizePixels, picture.sizePixels]);
    expect(png.data.every((value, index) => index % 4 !== 3 || value === 255)).toBe(true);
    expect(inkDistances(png).length / (png.width * png.height)).toBeGreaterThan(0.05);
  });

  it('keep the drawing of the maskable one within the circle that no device cuts: radius 40 % of the width (W3C, Web Application Manifest, icon masks)', () => {
    const maskable = iconPictures.filter(({ name }) => name.includes('maskable'));
    expect(maskable).toHaveLength(1);
    for (const picture of maskable) {
      const distances = inkDistances(PNG.sync.read(Buffer.from(drawIcon(picture, usualColours.light))));
      expect(Math.max(...distances)).toBeLessThanOrEqual(0.4);
    }
  });

  it('are the ones that the manifest names, with 192 and 512 pixels and a maskable one among them', () => {
    const pictures = manifest.icons.filter(({ type }) => type === 'image/png');
    for (const { src, sizes } of pictures) {
      const known = iconPictures.find(({ name }) => src === `icons/${name}.png`);
      expect(sizes, src).toBe(`${known?.sizePixels}x${known?.sizePixels}`);
    }
    expect(pictures.map(({ sizes }) => sizes)).toEqual(['192x192', '512x512', '512x512']);
    expect(pictures.filter(({ purpose }) => purpose === 'maskable')).toHaveLength(1);
  });
});

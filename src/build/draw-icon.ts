import { Resvg } from '@resvg/resvg-js';
import { readFileSync } from 'node:fs';

/** One picture of the site's icon. */
export interface IconPicture {
  readonly name: string;
  readonly sizePixels: number;
  /** Share of the picture's width that the drawing takes; the rest is paper. */
  readonly drawingShare: number;
}

/**
 * The pictures that an installed site needs. A maskable one is cut to any shape that leaves a circle of 80 % of its
 * width (W3C Web Application Manifest, icon masks): the drawing, 26 by 24 of 32 units, lies within it at 0.7.
 */
export const iconPictures: readonly IconPicture[] = [
  { name: 'icon-180', sizePixels: 180, drawingShare: 1 },
  { name: 'icon-192', sizePixels: 192, drawingShare: 1 },
  { name: 'icon-512', sizePixels: 512, drawingShare: 1 },
  { name: 'icon-maskable-512', sizePixels: 512, drawingShare: 0.7 },
];

/** Draws public/icon.svg as a PNG. */
export function drawIcon({ sizePixels, drawingShare }: IconPicture): Uint8Array<ArrayBuffer> {
  const svg = readFileSync('public/icon.svg', 'utf8');
  const sideUnits = 32 / drawingShare;
  const startUnits = (32 - sideUnits) / 2;
  const widened = svg.replace('viewBox="0 0 32 32"', `viewBox="${startUnits} ${startUnits} ${sideUnits} ${sideUnits}"`);
  const picture = new Resvg(widened, { fitTo: { mode: 'width', value: sizePixels }, background: '#f6f2e8' });
  return new Uint8Array(picture.render().asPng());
}

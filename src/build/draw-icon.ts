import { Resvg } from '@resvg/resvg-js';
import { type Colours, type Site, siteTitle } from '#core/model/site.ts';

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

/** The site's icon as SVG text: two halves of a circuit, split in the middle. */
export function writeIcon({ paper, ink, signal }: Colours): string {
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 32 32"><path fill="${paper}" d="M0 0h32v32H0z"/><g fill="none" stroke="${ink}" stroke-width="2"><path d="M3 9h10v14H3zM19 9h10v14H19zM13 16h6"/></g><path d="M16 4v24" stroke="${signal}" stroke-width="2.5" stroke-dasharray="4 3"/></svg>\n`;
}

/** Draws the icon as a PNG. */
export function drawIcon({ sizePixels, drawingShare }: IconPicture, colours: Colours): Uint8Array<ArrayBuffer> {
  const svg = writeIcon(colours);
  const sideUnits = 32 / drawingShare;
  const startUnits = (32 - sideUnits) / 2;
  const widened = svg.replace('viewBox="0 0 32 32"', `viewBox="${startUnits} ${startUnits} ${sideUnits} ${sideUnits}"`);
  const picture = new Resvg(widened, { fitTo: { mode: 'width', value: sizePixels }, background: colours.paper });
  return new Uint8Array(picture.render().asPng());
}

/** What a device that installs the site reads: W3C Web Application Manifest. Addresses are relative to it, below any base. */
export function writeManifest(site: Site): string {
  const { paper } = site.colours.light;
  const pictures = iconPictures
    .filter(({ name }) => name !== 'icon-180')
    .map(({ name, sizePixels, drawingShare }) => ({
      src: `icons/${name}.png`,
      sizes: `${sizePixels}x${sizePixels}`,
      type: 'image/png',
      ...(drawingShare < 1 ? { purpose: 'maskable' } : {}),
    }));
  return JSON.stringify({
    name: siteTitle(site),
    short_name: site.name,
    description: site.summary,
    lang: 'en',
    start_url: './',
    scope: './',
    display: 'standalone',
    theme_color: paper,
    background_color: paper,
    icons: [...pictures, { src: 'icon.svg', sizes: 'any', type: 'image/svg+xml' }],
  });
}

import { colourNames, type Colours } from '#core/model/site.ts';
import type { Plugin } from 'vite';
import { loadLibrary } from './library.ts';

/** Writes the colours of the library's site.yaml into the style of every page: no page holds more bytes where they are its own. */
export function siteColours(): Plugin {
  return {
    name: 'halfsplit-site-colours',
    enforce: 'pre',
    transform(code, id) {
      if (!id.split('?')[0]?.endsWith('/styles/sheet.css')) return null;
      const { light, dark } = loadLibrary().site.colours;
      // In the lowest layer: paper has colours of its own.
      return `${code}\n@layer base{${writeColours(light)}@media (prefers-color-scheme:dark){${writeColours(dark)}}}\n`;
    },
  };
}

function writeColours(colours: Colours): string {
  return `:root{${colourNames.map((name) => `--${name}:${colours[name]}`).join(';')}}`;
}

import { fileURLToPath } from 'node:url';
import mdx from '@astrojs/mdx';
import { defineConfig } from 'astro/config';
import { satteri } from '@astrojs/markdown-satteri';
import { guardContent } from './src/build/guard-content.ts';
import { offlineSite } from './src/build/offline.ts';
import { nameBundle, namePressBundle } from './src/build/page-bundles.ts';
import { withoutExplanations } from './src/build/without-explanations.ts';

// SITE_URL: the address the site is published at, for canonical and preview addresses. BASE_PATH: the sub-path there.
const site = process.env.SITE_URL || undefined;
if (site === undefined && process.argv.includes('build')) {
  console.warn('SITE_URL is not set: canonical addresses and those for previews are left out.');
}

/**
 * What a press needs is fetched by its own imports: lists for fetching ahead would lie in the script of every page. Entries have short
 * names, since every page holds two.
 */
const smallPages = {
  name: 'small-pages',
  configEnvironment: (name) => {
    if (name !== 'client') return undefined;
    const groups = [
      { name: nameBundle, priority: 2 },
      { name: namePressBundle, priority: 1 },
    ];
    const output = { entryFileNames: '_astro/[hash].js', codeSplitting: { groups } };
    return { build: { modulePreload: false, rolldownOptions: { output } } };
  },
};

export default defineConfig({
  ...(site === undefined ? {} : { site }),
  base: process.env.BASE_PATH ?? '/',
  output: 'static',
  trailingSlash: 'always',
  build: { format: 'directory', inlineStylesheets: 'never' },
  compressHTML: true,
  devToolbar: { enabled: false },
  // The guide is plain CommonMark, as content/ is: quotes are curled and dashes joined.
  markdown: { syntaxHighlight: false, processor: satteri({ features: { gfm: false } }) },
  integrations: [mdx({ optimize: false }), offlineSite()],
  vite: {
    plugins: [guardContent(), smallPages],
    build: {
      assetsInlineLimit: 0,
    },
    worker: { format: 'es', plugins: () => [withoutExplanations()] },
    // In a worker there is no document to decode entities with; Node's reading of them serves everywhere.
    resolve: {
      alias: {
        'decode-named-character-reference': fileURLToPath(import.meta.resolve('decode-named-character-reference')),
      },
    },
    ssr: { external: ['mermaid', 'jsdom', 'fontkit', '@resvg/resvg-js'] },
  },
});

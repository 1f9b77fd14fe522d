import { fileURLToPath } from 'node:url';
import mdx from '@astrojs/mdx';
import { defineConfig } from 'astro/config';
import { satteri } from '@astrojs/markdown-satteri';
import { guardContent } from './src/build/guard-content.ts';
import { offlineSite } from './src/build/offline.ts';
import { siteColours } from './src/build/site-colours.ts';
import { withoutExplanations } from './src/build/without-explanations.ts';

// SITE_URL: the address the site is published at, for canonical and preview addresses. BASE_PATH: the sub-path there.
const site = process.env.SITE_URL || undefined;
if (site === undefined && process.argv.includes('build')) {
  console.warn('SITE_URL is not set: canonical addresses and those for previews are left out.');
}

/** What a press needs is fetched by its own imports: lists for fetching ahead would lie in the script of every page. */
const withoutPreload = {
  name: 'without-preload',
  // Entries have short names: every page holds two.
  configEnvironment: (name) =>
    name === 'client'
      ? { build: { modulePreload: false, rolldownOptions: { output: { entryFileNames: '_astro/[hash].js' } } } }
      : undefined,
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
    plugins: [guardContent(), siteColours(), withoutPreload],
    build: {
      assetsInlineLimit: 0,
      // What every page of a tree loads at once travels as one file: smaller together than in ten.
      rolldownOptions: {
        output: {
          codeSplitting: {
            groups: [
              {
                name: 'shared',
                priority: 2,
                test: /preload-helper|src\/(?:core\/(?:answer\/(?:answer|lead)|link\/(?:address|fragment|tree-map)|log\/job-brief|model\/(?:fnv|read-record|supply))|browser\/(?:bench|job-memory|kit\/(?:elements|fetch-once|storage)|open-job|page-data|page-fragment|recent-jobs))\.ts$/,
              },
              {
                name: 'words',
                priority: 1,
                test: /src\/core\/(?:model\/node|quantity\/(?:reading|unit)|answer\/say)\.ts$/,
              },
              {
                name: 'limits',
                priority: 1,
                test: /src\/(?:core\/(?:model\/(?:target-text|limits)|answer\/bench-tree)|browser\/(?:apply-unit|apply-mains|walk\/load-bench))\.ts$/,
              },
              {
                name: 'tree-page',
                priority: 1,
                test: /src\/browser\/(?:node-walk|recorder\/notes|share-panel|reading-field|caution-gate|walk\/update-links)\.ts$/,
              },
              {
                name: 'drawings',
                priority: 1,
                test: /src\/core\/(?:page\/(?:markup|leads|draw-p(?:art|icture|laced)|render-figure)|model\/part)\.ts$/,
              },
              {
                name: 'log',
                priority: 0,
                test: /src\/(?:core\/log\/|browser\/(?:log\/(?:database|event-log|job-desk|files|photos|long-list)|recorder\/(?:recorder|drain-notes)|unit-sheet)\.ts$)/,
              },
              { name: 'trusted', priority: 1, test: /src\/browser\/kit\/trusted\.ts$/ },
              {
                name: 'problem',
                priority: 1,
                test: /src\/core\/(?:answer\/(?:path-state|judge-answer)|diagnosis\/(?:problem|tree\/(?:derive-problem|tree-checks)))\.ts$/,
              },
              {
                name: 'engine',
                priority: 0,
                test: /src\/(?:core\/(?:diagnosis\/(?!problem|tree\/(?:derive-problem|tree-checks))|link\/changes\.ts$|answer\/evidence\.ts$)|browser\/walk\/(?:engine-parts|assess-page|likely-now|stage-list)\.ts$)/,
              },
            ],
          },
        },
      },
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

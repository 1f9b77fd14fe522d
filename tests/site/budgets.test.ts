import { readdirSync, readFileSync } from 'node:fs';
import { gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { loadLibrary } from '#build/library.ts';
import { phone, useBench } from '../journeys/open-browser.ts';

// Bytes over the wire, gzip: the budgets of the design. 1 kB = 1,000 bytes, the stricter reading.
const budgetBytes = {
  home: 45_000,
  tree: 60_000,
  step: 6_000,
  node: 30_000,
  script: 15_000,
  style: 10_000,
  font: 20_000,
} as const;

const bench = useBench({ hasWorker: true });

function sizeOf(text: Buffer): number {
  return gzipSync(text, { level: 6 }).length;
}

function largestOf(paths: readonly string[]): { readonly path: string; readonly bytes: number } {
  return paths
    .map((path) => ({ path, bytes: sizeOf(readFileSync(`dist${path}index.html`)) }))
    .reduce((one, other) => (other.bytes > one.bytes ? other : one));
}

/** Bytes that a page brings before anyone presses anything, by kind; woff2 is compressed already and counts as it is. */
async function weigh(
  path: string,
): Promise<Readonly<Record<'document' | 'script' | 'stylesheet' | 'font' | 'other', number>>> {
  const { page, open } = await bench.visit(phone);
  const bytes = { document: 0, script: 0, stylesheet: 0, font: 0, other: 0 };
  const pending: Promise<void>[] = [];
  page.on('response', (response) => {
    if (!response.url().startsWith('http')) return;
    const kind = response.request().resourceType();
    const name = kind === 'document' || kind === 'script' || kind === 'stylesheet' || kind === 'font' ? kind : 'other';
    pending.push(
      response.body().then((body) => {
        bytes[name] += name === 'font' ? body.length : sizeOf(body);
      }),
    );
  });
  // What a page fetches because someone stays on it for half a second (to work offline) or more is not counted, however slow the machine.
  await page.addInitScript((halfSecond) => {
    const plain = window.setTimeout.bind(window);
    const short = (handler: () => void, delay = 0): number => (delay >= halfSecond ? 0 : plain(handler, delay));
    Object.assign(window, { setTimeout: short });
  }, 500);
  await open(path);
  await page.waitForLoadState('networkidle');
  await Promise.all(pending);
  return bytes;
}

const library = loadLibrary();
const trees = [...library.trees.values()];
const nodePaths = trees.flatMap(({ slug, nodes }) => nodes.map(({ id }) => `/trees/${slug}/${id}/`));

describe('bytes over the wire, gzip', () => {
  it('home brings at most 45 kB before typing, all that it loads counted', async () => {
    const { document, script, stylesheet, font, other } = await weigh('/');

    expect(document).toBeGreaterThan(0);
    expect(document + script + stylesheet + font + other).toBeLessThanOrEqual(budgetBytes.home);
  });

  it('the page of a check or cause is itself at most 6 kB', () => {
    const { path, bytes } = largestOf(nodePaths);

    expect(bytes, path).toBeLessThanOrEqual(budgetBytes.step);
  });

  it('the heaviest page of a check or cause brings at most 30 kB with style and script, the font apart', async () => {
    const { path } = largestOf(nodePaths);
    const { document, script, stylesheet } = await weigh(path);

    expect(document + script + stylesheet, path).toBeLessThanOrEqual(budgetBytes.node);
  });

  it('the heaviest page of a tree brings at most 60 kB with its whole graph, style and script, the font apart', async () => {
    const { path } = largestOf(trees.map(({ slug }) => `/trees/${slug}/`));
    const { document, script, stylesheet } = await weigh(path);

    expect(document + script + stylesheet, path).toBeLessThanOrEqual(budgetBytes.tree);
  });

  it('script on a check page is at most 15 kB before interaction', async () => {
    const { script } = await weigh('/trees/psu-5v-low/rail-bare/');

    expect(script).toBeGreaterThan(0);
    expect(script).toBeLessThanOrEqual(budgetBytes.script);
  });

  it('only the drafting page loads the editor, its compiler and its library', () => {
    const pages = readdirSync('dist', { recursive: true, encoding: 'utf8' }).filter((file) => file.endsWith('.html'));
    const editor = readdirSync('dist/_astro').filter((file) =>
      readFileSync(`dist/_astro/${file}`, 'utf8').includes('cm-content'),
    );
    const loading = pages.filter((file) =>
      editor.some((script) => readFileSync(`dist/${file}`, 'utf8').includes(script)),
    );

    expect(editor).toHaveLength(1);
    expect(loading).toEqual(['draft/index.html']);
  });

  // What a draft is checked against grows with the library: its share has a budget of its own.
  it('the drafting page brings at most 405 kB, and 42 kB and 2.5 kB a tree of library, all that it loads counted', async () => {
    const { document, script, stylesheet, font, other } = await weigh('/draft/');

    expect(script).toBeGreaterThan(100_000);
    expect(other).toBeGreaterThan(50_000);
    expect(document + script + stylesheet + font).toBeLessThanOrEqual(405_000);
    expect(other).toBeLessThanOrEqual(42_000 + 2500 * trees.length);
  });

  it('all style together is at most 10 kB', () => {
    const sheets = readdirSync('dist/_astro').filter((file) => file.endsWith('.css'));
    const bytes = sheets.reduce((sum, file) => sum + sizeOf(readFileSync(`dist/_astro/${file}`)), 0);

    expect(sheets.length).toBeGreaterThan(0);
    expect(bytes).toBeLessThanOrEqual(budgetBytes.style);
  });

  it('one font is shipped, of at most 20 kB', () => {
    const fonts = readdirSync('dist/fonts').filter((file) => file.endsWith('.woff2'));

    expect(fonts).toHaveLength(1);
    for (const file of fonts) expect(readFileSync(`dist/fonts/${file}`).length).toBeLessThanOrEqual(budgetBytes.font);
  });
});

import { execFileSync, spawn } from 'node:child_process';
import {
  cpSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readPathSoFar } from '../journeys/hands.ts';
import { type Bench, openBench, phone } from '../journeys/open-browser.ts';
import { ownEnvironment } from '../support/own-environment.ts';
import { findFreePort, waitFor } from './built-site.ts';

// The site as it may stand in some years: the tree psu-5v-low is called rail-5v-low, its first check has another id, title and
// one other answer, and one of its checks came from another tree. Built as it is, and visited by links made today.
let folder = '';
let address = '';
let bench: Bench;
let server: ReturnType<typeof spawn>;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'halfsplit-old-links-'));
  for (const part of ['src', 'content', 'public', 'astro.config.mjs', 'package.json', 'tsconfig.json']) {
    cpSync(part, join(folder, part), { recursive: true });
  }
  symlinkSync(resolve('node_modules'), join(folder, 'node_modules'));
  renameTree();
  const own = ownEnvironment();
  execFileSync(process.execPath, ['node_modules/astro/bin/astro.mjs', 'build', '--silent'], {
    cwd: folder,
    env: own,
    stdio: 'pipe',
  });
  const port = await findFreePort();
  server = spawn(process.execPath, ['src/cli/serve.ts'], {
    cwd: folder,
    env: { ...own, PORT: String(port), HOST: '127.0.0.1' },
    stdio: 'ignore',
  });
  address = `http://127.0.0.1:${port}`;
  await waitFor(address);
  bench = await openBench();
});
afterAll(async () => {
  server?.kill();
  await bench?.close();
  rmSync(folder, { recursive: true, force: true });
});

function renameTree(): void {
  const content = join(folder, 'content');
  for (const name of readdirSync(content, { recursive: true, encoding: 'utf8' })) {
    if (!/\.(?:mdx|yaml)$/.test(name)) continue;
    const file = join(content, name);
    writeFileSync(file, readFileSync(file, 'utf8').replaceAll('psu-5v-low', 'rail-5v-low'));
  }
  const file = join(content, 'trees/power/rail-5v-low.mdx');
  renameSync(join(content, 'trees/power/psu-5v-low.mdx'), file);
  const before = readFileSync(file, 'utf8');
  const after = before
    .replace(/^block: power$/m, 'block: power\nwas: [psu-5v-low]')
    .replace(
      '<Check id="supply-kind" title="What makes the 5 V?"',
      '<Check id="feed-kind" was="supply-kind" title="What feeds the 5 V?"',
    )
    .replaceAll('supply-kind=', 'feed-kind=')
    .replaceAll('feed-kind=iron', 'feed-kind=transformer')
    .replace('<Outcome when="iron"', '<Outcome when="transformer"')
    .replace('<Check id="add-ons"', '<Check id="add-ons" was="psu-ripple/add-on-test"');
  // Each of the edits took place.
  for (const part of ['was: [psu', 'was="supply-kind"', 'when="transformer"', 'was="psu-ripple/add-on-test"']) {
    if (!after.includes(part)) throw new Error(`The tree could not be changed: ${part}`);
  }
  writeFileSync(file, after);
}

describe('a link of today, after the tree was renamed and edited', () => {
  it('lands on the same check, says what has changed, keeps every answer, and goes on under today’s names', async () => {
    const { page, open, remember, faults, end } = await bench.visit({ ...phone, baseURL: address });
    await remember('halfsplit.cautions-read', 'mains charged-capacitor hot-parts');
    await open('/trees/psu-5v-low/regulator-out/#supply-kind=iron&psu-5v-low/rail-bare=4.61V&did=reservoir-dry');

    expect(await page.locator('h1').textContent()).toContain('Is 5 V low at the regulator already?');
    expect(await page.locator('.moved').textContent()).toContain('The address you opened is an old one.');
    expect(await page.locator('.notices p').allTextContents()).toEqual([
      '“supply-kind” is called “What feeds the 5 V?” now; the link still means the same.',
      'The tree “psu-5v-low” is called “rail-5v-low” now; the link still means the same.',
      '“Iron” is no answer to “What feeds the 5 V?” any more; it is kept as text and decides nothing.',
    ]);
    expect(await readPathSoFar(page)).toEqual([
      'What feeds the 5 V?: Iron',
      expect.stringMatching(/^5 V at the farthest chip, all add-ons off\?: 4\.61/),
      'Reservoir capacitor dried out: Tried: no cure',
    ]);
    await page.getByRole('link', { name: /^Right at the regulator: lost on the way/u }).tap();
    await page.waitForURL('**/trees/rail-5v-low/path-drop/#*');
    expect(new URL(page.url()).hash).toBe('#feed-kind=iron&rail-bare=4.61V&regulator-out=in&did=reservoir-dry');
    expect(faults).toEqual([]);
    await end();
  });

  it('lands on the renamed check, and a copied link has today’s address', async () => {
    const visit = await bench.visit({ baseURL: address, permissions: ['clipboard-read', 'clipboard-write'] });
    await visit.open('/trees/psu-5v-low/supply-kind/');

    expect(await visit.page.locator('h1').textContent()).toContain('What feeds the 5 V?');
    await visit.page.getByRole('button', { name: 'Copy a link to exactly this' }).click();
    await visit.page.getByText('Link copied.').waitFor();
    expect(await visit.page.evaluate(() => navigator.clipboard.readText())).toBe(
      `${address}/trees/rail-5v-low/feed-kind/`,
    );
    await visit.end();
  });

  it('lands on a check that moved into another tree, with the rest as evidence from the tree it was in', async () => {
    const { page, open, end } = await bench.visit({ ...phone, baseURL: address });
    await open('/trees/psu-ripple/add-on-test/#hum-kind=steady');

    expect(await page.locator('h1').textContent()).toContain('Which add-on brings it down?');
    expect(await page.locator('[data-walked] li').textContent()).toContain('psu-ripple');
    await end();
  });

  it('opens the whole tree at its old address, with the way that the answers took', async () => {
    const { page, open, end } = await bench.visit({ ...phone, baseURL: address });
    await open('/trees/psu-5v-low/#regulator-out=in');

    expect(await page.locator('.moved').textContent()).toContain('5 V rail too low');
    expect(await page.locator('.graph svg .node.walked').count()).toBeGreaterThan(0);
    await end();
  });

  it('answers every address that the build of today has', () => {
    const readPages = (root: string): readonly string[] =>
      readdirSync(root, { recursive: true, encoding: 'utf8' }).filter((file) => file.endsWith('index.html'));
    const pages = new Set(readPages(join(folder, 'dist')));
    const today = readPages('dist');

    expect(today).toContain('trees/psu-5v-low/regulator-out/index.html');
    expect(today.filter((path) => !pages.has(path))).toEqual([]);
  });
});

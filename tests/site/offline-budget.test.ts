import { readdirSync, readFileSync, statSync } from 'node:fs';
import { gunzipSync, gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { loadLibrary } from '#build/library.ts';
import type { Pack } from '#core/offline/pack.ts';
import { contentTypeOf } from '#core/offline/content-type.ts';
import { readPackedFile } from '#core/offline/read-packed-file.ts';
import { openKeptBrowser, waitUntilStored } from '../journeys/offline/open-kept-browser.ts';
import { startStaticSite } from '../support/static-site.ts';

// The budget of the design: what is fetched on the first visit, for fifty trees. 1 MB = 1,000,000 bytes, the stricter reading.
const mostBytes = 3_000_000;
const mostRequests = 40;
const treesToCome = 50;
// Two blocks more than now, for synthesizers' own circuits and for displays: a pack each.
const blocksToCome = 11;

const packs = readdirSync('dist/offline').map((file) => {
  const bytes = readFileSync(`dist/offline/${file}`);
  // Written by our own build.
  const pack = JSON.parse(gunzipSync(bytes).toString('utf8')) as Pack;
  return { file, bytes: bytes.length, pack };
});
const first = packs.filter(({ file }) => !file.startsWith('drafting.'));
const trees = loadLibrary().trees.size;
const blocks = new Set([...loadLibrary().trees.values()].map(({ block }) => block));

/** Bytes of the first fetch when there are fifty trees: whatever may grow with the number of trees grows with it. */
function extrapolate(fixedBytes: number): number {
  // The pins of common parts are the same however many trees there are.
  const isFixed = ({ file }: (typeof first)[number]): boolean => /^(?:parts|program)\./.test(file);
  const growing = first.filter((pack) => !isFixed(pack)).reduce((sum, { bytes }) => sum + bytes, 0);
  const fixed = first.filter(isFixed).reduce((sum, { bytes }) => sum + bytes, 0);
  return Math.round((growing * Math.max(treesToCome, trees)) / trees) + fixed + fixedBytes;
}

describe('the packs', () => {
  it('hold every page, script, style sheet and data file that a page reads, byte for byte', () => {
    const files = readdirSync('dist', { recursive: true, encoding: 'utf8' }).filter(
      (path) =>
        contentTypeOf(path) !== undefined &&
        path !== 'sw.js' &&
        path !== 'data/index.json' &&
        // Not needed at the bench: a tree on paper, the guide for authors.
        !path.endsWith('/all/index.html') &&
        !/^guide\/[^/]+\//.test(path) &&
        !['data/trees/', 'data/targets/', 'data/cautions/', 'data/schema/'].some((folder) => path.startsWith(folder)),
    );
    const differing = files.filter((path) => {
      const held = packs.map(({ pack }) => readPackedFile(pack, path)).filter((text) => text !== undefined);
      return held.length !== 1 || !Buffer.from(held[0] ?? '', 'utf8').equals(readFileSync(`dist/${path}`));
    });

    expect(files.filter((path) => path.endsWith('.html')).length).toBeGreaterThan(600);
    expect(differing).toEqual([]);
  });

  it('hold no pictures: they are fetched when they are looked at', () => {
    const held = packs.flatMap(({ pack }) => Object.keys(pack.files));
    expect(held.filter((path) => /\.(?:png|jpe?g|webp)$/u.test(path))).toEqual([]);
  });

  it('are one a block, with those of targets, cautions, units, parts and the rest', () => {
    expect(first.map(({ file }) => file.replace(/\.[0-9a-f]{12}\.pack$/u, '')).sort()).toEqual(
      [
        ...[...blocks].map((block) => `block-${block}`),
        'units',
        'cautions',
        'parts',
        'program',
        'rest',
        'targets',
      ].sort(),
    );
  });
});

describe('the first visit', () => {
  // Drafting brings its editor, the compiler and what it knows of all trees beside: 0.3 MB and a request more.
  it.each([
    ['/', mostBytes, mostRequests],
    ['/trees/psu-5v-low/', mostBytes, mostRequests],
    ['/trees/psu-5v-low/rail-bare/', mostBytes, mostRequests],
    ['/targets/', mostBytes, mostRequests],
    ['/units/quillon-44/', mostBytes, mostRequests],
    ['/log/', mostBytes, mostRequests],
    ['/draft/', mostBytes + 300_000, mostRequests + 1],
  ])(
    'to %s fetches at most %d bytes in %d requests, for fifty trees too, all counted by the server',
    async (...row) => {
      const [address, bytesAllowed, requestsAllowed] = row;
      const site = await startStaticSite('dist');
      const browser = await openKeptBrowser(site.address);
      const start = performance.now();
      const page = await browser.openWindow();
      await page.goto(address);
      await waitUntilStored(page);
      const seconds = (performance.now() - start) / 1000;
      await browser.end();
      await site.goDown();

      const bytes = site.served.reduce((sum, answer) => sum + answer.bytes, 0);
      const packed = first.reduce((sum, pack) => sum + pack.bytes, 0);
      const forFifty = extrapolate(bytes - packed);
      console.log(
        `first visit to ${address}: ${site.served.length} requests, ${bytes} bytes, ${seconds.toFixed(1)} s; ` +
          `${trees} trees; for ${treesToCome}: ${forFifty} bytes`,
      );
      expect(site.served.filter(({ path }) => path.startsWith('/offline/')).length).toBe(first.length);
      expect(site.served.length + Math.max(0, blocksToCome - blocks.size)).toBeLessThanOrEqual(requestsAllowed);
      expect(bytes).toBeLessThanOrEqual(bytesAllowed);
      expect(forFifty).toBeLessThanOrEqual(bytesAllowed);
    },
  );

  it('brings a worker of at most 10 kB', () => {
    expect(statSync('dist/sw.js').size).toBeGreaterThan(1000);
    expect(gzipSync(readFileSync('dist/sw.js')).length).toBeLessThanOrEqual(10_000);
  });
});

import { existsSync } from 'node:fs';
import { gzipSync } from 'node:zlib';
import Fuse, { type IFuseOptions } from 'fuse.js';
import { readContent } from '#build/library.ts';
import type { FaultTree } from '#core/model/fault-tree.ts';
import { makeCorrector } from '#core/search/correct-words.ts';
import { openSearch } from '#core/search/open-search.ts';
import { buildIndex } from '#build/search-index.ts';
import { searchCorrected } from '#core/search/search-session.ts';
import { measureKeystrokes } from './keystrokes.ts';
import { makeManyTrees } from './many-trees.ts';
import { type BenchQuery, readQueries } from './read-queries.ts';

// npm run bench: how well and how fast the search is, beside plain fuse.js on the same queries. Queries whose trees are not
// shipped are left out; n stands beside each figure. SAMPLES names one more table of queries, outside the repository.

type Rank = (text: string) => readonly string[];

/** Folder of the built site. */
const site = process.env['BENCH_SITE'] ?? 'dist';
const { library } = readContent();
const trees = [...library.trees.values()];
const index = buildIndex(library);

const rankers: readonly (readonly [name: string, rank: Rank])[] = [
  ['fuse.js as it comes', rankByFuse(trees, {})],
  ['fuse.js, token search', rankByFuse(trees, { useTokenSearch: true })],
  ['Halfsplit', rankByOurs()],
];
const tables: readonly (readonly [name: string, queries: readonly BenchQuery[]])[] = [
  ['tuned on', readQueries('tests/bench/queries-tuned.tsv')],
  ['held back', readQueries('tests/bench/queries-held.tsv')],
  ...otherQueries(process.env['SAMPLES']),
];

console.log(`\n${trees.length} trees; index ${kilobytes(JSON.stringify(index))} compressed\n`);
console.log('queries    search                  first          first three    nothing fits   p50 ms  p95 ms');
for (const [tableName, queries] of tables) {
  if (queries.length === 0) continue;
  for (const [name, rank] of rankers) {
    console.log(`${tableName.padEnd(10)} ${name.padEnd(22)}  ${judge(queries, rank)}`);
  }
}

const many = buildIndex(makeManyTrees(library, 1000, 20_261_125));
console.log('\nin Chromium, processor slowed four times, one keystroke to results on the page:');
if (!existsSync(`${site}/index.html`)) console.log(`  no ${site}/: run npm run build first`);
else {
  const texts = readQueries('tests/bench/queries-held.tsv').map(({ text }) => text);
  for (const [name, data] of [
    [`${trees.length} trees`, index],
    ['1,000 trees', many],
  ] as const) {
    const { keystrokes, corrections, opened } = await measureKeystrokes(site, JSON.stringify(data), texts.slice(0, 60));
    console.log(
      `  ${name.padEnd(12)} n = ${keystrokes.length}: p50 ${share(keystrokes, 0.5)} ms, p95 ${share(keystrokes, 0.95)} ms, longest ${share(keystrokes, 1)} ms`,
    );
    console.log(
      `  ${''.padEnd(12)} misspelt words from the worker, n = ${corrections.length}: p50 ${share(corrections, 0.5)} ms, p95 ${share(corrections, 0.95)} ms; index opened in ${opened.toFixed(0)} ms`,
    );
  }
}

function judge(queries: readonly BenchQuery[], rank: Rank): string {
  const times: number[] = [];
  const counts = { asked: 0, first: 0, three: 0, strangers: 0, empty: 0 };
  for (const { text, trees: wanted } of queries) {
    if (wanted.size > 0 && ![...wanted].some((slug) => library.trees.has(slug))) continue;
    const start = performance.now();
    const found = rank(text);
    times.push(performance.now() - start);
    if (wanted.size === 0) {
      counts.strangers += 1;
      if (found.length === 0) counts.empty += 1;
      continue;
    }
    counts.asked += 1;
    if (wanted.has(found[0] ?? '')) counts.first += 1;
    if (found.slice(0, 3).some((slug) => wanted.has(slug))) counts.three += 1;
  }
  const { asked, first, three, strangers, empty } = counts;
  return `${percent(first, asked)}  ${percent(three, asked)}  ${percent(empty, strangers)}  ${share(times, 0.5).padStart(6)}  ${share(times, 0.95).padStart(6)}`;
}

function rankByFuse(items: readonly FaultTree[], options: IFuseOptions<FaultTree>): Rank {
  const fuse = new Fuse(items, { keys: ['title', 'symptoms'], ...options });
  return (text) => fuse.search(text).map(({ item }) => item.slug);
}

function rankByOurs(): Rank {
  const search = openSearch(index);
  const corrector = makeCorrector(search.vocabulary);
  return (text) => searchCorrected(search, corrector, text).results.map(({ tree }) => tree);
}

function percent(count: number, of: number): string {
  return `${of === 0 ? '-' : ((100 * count) / of).toFixed(0)} % (${count}/${of})`.padEnd(13);
}

/** The value below which `part` of the values lie, one decimal. */
function share(values: readonly number[], part: number): string {
  const sorted = values.toSorted((a, b) => a - b);
  return (sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * part))] ?? 0).toFixed(1);
}

function kilobytes(text: string): string {
  return `${(gzipSync(text).length / 1000).toFixed(1)} kB`;
}

/** A table of queries kept elsewhere, where SAMPLES names one. */
function otherQueries(file: string | undefined): readonly (readonly [name: string, queries: readonly BenchQuery[]])[] {
  return file === undefined ? [] : [['samples', readQueries(file)]];
}

import { existsSync } from 'node:fs';
import { gzipSync } from 'node:zlib';
import Fuse from 'fuse.js';
import { readContent } from '#build/library.ts';
import { type Answer, answerBy, judgeHand, measureNewTrees, printHands, withSum } from '#build/measure-search.ts';
import { buildIndex } from '#build/search-index.ts';
import { handsOf, openSchool, readQueries, teachModel } from '#build/teach-search.ts';
import { turnIntoChances } from '#core/search/fit-model.ts';
import { openModel, scoreClasses, type TaughtModel, untaughtModel } from '#core/search/taught-model.ts';
import { measureKeystrokes } from './keystrokes.ts';
import { makeManyTrees } from './many-trees.ts';

// npm run bench: how well the search finds what strangers ask for, and how fast.
//
// content/queries.tsv holds queries by five hands, a to e. Each hand is answered by models that were taught without it, weights of ranking
// and refusal included; the project's own queries teach and never judge. "First" and "among three" count a tree that the table
// names as equally fitting. A query whose trees are not written yet is no fair question to the search that exists: where it names
// an alternative that is written, that counts; else it stands in two columns of its own, refused and called a weak fit. Either is an
// honest answer, so it is part of neither goal.
const { library, files } = readContent();
const queries = readQueries(files.find(({ file }) => file === 'content/queries.tsv')?.text ?? '');
const school = openSchool(library, queries);
const hands = handsOf(queries);
const fits = new Map<string, Float32Array>();
const models = new Map(hands.map((hand) => [hand, teachModel(school, hand, fits)]));
const index = buildIndex(library);

const fuse = new Fuse([...library.trees.values()], { keys: ['title', 'symptoms'], useTokenSearch: true });
const searches: readonly (readonly [name: string, answerFor: (hand: string) => Answer])[] = [
  [
    'plain fuse.js, token search over titles and symptoms',
    () =>
      ({ text }) => ({ trees: fuse.search(text).map(({ item }) => item.slug), isWeak: false }),
  ],
  ['the concepts alone', () => answerBy(school, untaughtModel)],
  ['the linear model alone', (hand) => answerByLinear(models.get(hand) ?? untaughtModel)],
  ['Halfsplit', (hand) => answerBy(school, models.get(hand) ?? untaughtModel)],
];

console.log(
  `\n${library.trees.size} trees; index ${(gzipSync(JSON.stringify(index)).length / 1000).toFixed(1)} kB compressed`,
);
for (const [name, answerFor] of searches) {
  console.log(`\n${name}\n${printHands(withSum(hands.map((hand) => judgeHand(school, hand, answerFor(hand)))))}`);
}
const { asked, first, three } = measureNewTrees(library, queries, index.model);
console.log(
  `\ntrees taken out of the teaching, found by their own words alone: first ${first} of ${asked}, among three ${three} of ${asked}`,
);

/** Folder of the built site. */
const site = process.env['BENCH_SITE'] ?? 'dist';
console.log('\nin Chromium, processor slowed four times, one keystroke to results on the page:');
if (!existsSync(`${site}/index.html`)) console.log(`  no ${site}/: run npm run build first`);
else {
  const texts = queries.filter((_, number) => number % 25 === 0).map(({ text }) => text);
  for (const [name, data] of [
    [`${library.trees.size} trees`, index],
    ['1,000 trees', buildIndex(makeManyTrees(library, 1000, 20_261_125))],
  ] as const) {
    const { first, keystrokes, corrections } = await measureKeystrokes(site, JSON.stringify(data), texts.slice(0, 60));
    console.log(
      `  ${name.padEnd(12)} n = ${keystrokes.length}: p50 ${share(keystrokes, 0.5)} ms, p95 ${share(keystrokes, 0.95)} ms, longest ${share(keystrokes, 1)} ms`,
    );
    console.log(
      `  ${''.padEnd(12)} misspelt words from the worker, n = ${corrections.length}: p50 ${share(corrections, 0.5)} ms, p95 ${share(corrections, 0.95)} ms; first answer ${first.toFixed(0)} ms after the first key`,
    );
  }
}

/** Answers by the linear model alone; nothing where it finds "not ours" as probable as all else together. */
function answerByLinear(model: TaughtModel): Answer {
  const slugs = index.trees.map(({ slug }) => slug);
  const open = openModel(model, slugs);
  return ({ query }) => {
    const chances = scoreClasses(open, query.features);
    turnIntoChances(chances);
    if ((chances[open.none] ?? 0) >= 0.5) return { trees: [], isWeak: false };
    const written = open.classes.flatMap((slug, at) =>
      open.treeOf[at] === undefined ? [] : [{ slug, chance: chances[at] ?? 0 }],
    );
    return { trees: written.sort((a, b) => b.chance - a.chance).map(({ slug }) => slug), isWeak: false };
  };
}

/** The value below which `part` of the values lie, one decimal. */
function share(values: readonly number[], part: number): string {
  const sorted = values.toSorted((a, b) => a - b);
  return (sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * part))] ?? 0).toFixed(1);
}

import { writeFileSync } from 'node:fs';
import { readContent } from '#build/library.ts';
import { measureHands, printHands } from '#build/measure-search.ts';
import { openSchool, readQueries, teachModel } from '#build/teach-search.ts';

// Usage: npm run teach: fits the weights of the search to content/queries.tsv and to the trees' own words, and writes them with the
// figures of the fit. The same content gives the same file.
const { library, files } = readContent();
const school = openSchool(library, readQueries(files.find(({ file }) => file === 'content/queries.tsv')?.text ?? ''));
const fits = new Map<string, Float32Array>();
const figures = measureHands(school, fits);
const model = teachModel(school, undefined, fits);
const { classes, weights, ...rest } = model;
writeFileSync(
  'src/build/search-model.json',
  `${JSON.stringify({ figures, ...rest, classes, weights }, undefined, 1)}\n`,
);
console.log(printHands(figures));

import { writeFileSync } from 'node:fs';
import { readContent } from '#build/library.ts';
import { answerBy, judgeHand, measureNewTrees, printHands, withSum } from '#build/measure-search.ts';
import { handsOf, openSchool, readQueries, teachModel } from '#build/teach-search.ts';

// Usage: npm run teach: fits the weights of the search to content/queries.tsv and to the trees' own words, and writes them with the
// figures of the fit: each hand answered by a model that never saw it, and trees found by their own words alone. The same content
// gives the same file.
const { library, files } = readContent();
const queries = readQueries(files.find(({ file }) => file === 'content/queries.tsv')?.text ?? '');
const school = openSchool(library, queries);
const fits = new Map<string, Float32Array>();
const hands = withSum(
  handsOf(queries).map((hand) => judgeHand(school, hand, answerBy(school, teachModel(school, hand, fits)))),
);
const { classes, weights, ...rest } = teachModel(school, undefined, fits);
const model = { ...rest, classes, weights };
const { asked, first, three } = measureNewTrees(library, queries, model);
const figures = { hands, newTrees: { asked, first, three } };
writeFileSync('src/build/search-model.json', `${JSON.stringify({ figures, ...model }, undefined, 1)}\n`);
console.log(printHands(hands));
console.log(`Trees found by their own words alone: first ${first} of ${asked}, among three ${three} of ${asked}.`);

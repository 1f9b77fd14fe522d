/**
 * Makes the generated parts of DEVELOPERS.md from the compiler's own tables, and published JSON Schemas from the schemas by which the
 * program reads: npm run docs. Tests check that they are current.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { fillGenerated } from './generated-docs.ts';
import { makeSchemas } from './generated-schemas.ts';

const file = 'DEVELOPERS.md';
const before = readFileSync(file, 'utf8');
const after = await fillGenerated(before, file);
if (after !== before) writeFileSync(file, after);
console.log(after === before ? `${file} is current.` : `${file} was made anew.`);
for (const [path, text] of await makeSchemas()) writeFileSync(path, text);

/** Makes the generated parts of DEVELOPERS.md anew from the compiler's own tables: npm run docs. A test checks that they are current. */
import { readFileSync, writeFileSync } from 'node:fs';
import { fillGenerated } from './generated-docs.ts';

const file = 'DEVELOPERS.md';
const before = readFileSync(file, 'utf8');
const after = await fillGenerated(before, file);
if (after !== before) writeFileSync(file, after);
console.log(after === before ? `${file} is current.` : `${file} was made anew.`);

import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { readContent } from '#build/library.ts';
import { pathOfContent } from '#compiler/load.ts';
import { addAddresses, listAddresses } from '#build/addresses.ts';

// Usage: npm run addresses: adds every address of today to content/addresses.txt. The publishing workflow runs it; nothing is removed.
const file = pathOfContent('content/addresses.txt', process.cwd());
const before = existsSync(file) ? readFileSync(file, 'utf8') : '';
const after = addAddresses(before, listAddresses(readContent().library));
if (after !== before) writeFileSync(file, after);
const count = (text: string): number => text.split('\n').filter((line) => line !== '').length;
console.log(`content/addresses.txt: ${count(after)} addresses, ${count(after) - count(before)} of them new.`);

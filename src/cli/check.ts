import { compileContent } from '#compiler/compile-content.ts';
import { loadContent } from '#compiler/load.ts';
import { printProblems } from '#compiler/reporters/terminal.ts';

// Usage: npm run check -- [files]: compiles all content and prints its problems, or only those of the files named.
const named = process.argv.slice(2).map((name) => name.replace(/^\.\//, ''));
const { problems } = compileContent(loadContent(process.cwd()));
const shown = named.length === 0 ? problems : problems.filter(({ file }) => named.includes(file));
console.log(printProblems(shown));
process.exitCode = shown.some(({ severity }) => severity === 'error') ? 1 : 0;

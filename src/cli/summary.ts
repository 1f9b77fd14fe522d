import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { readContent } from '#build/library.ts';
import { writeGraphText } from '#build/mermaid.ts';
import type { FaultTree } from '#core/model/fault-tree.ts';
import { printWorth } from './print-worth.ts';

/*
 * Usage: git diff -z --name-only HEAD^1 | npm run --silent summary
 * Reads names of files from standard input, each ended by a zero byte, and prints Markdown: for each tree among them its
 * graph as a Mermaid drawing and what it is worth. Names and titles may be a stranger's: a tree is called by its slug,
 * and whatever its author wrote stands inside Mermaid's character codes or a fence that its text cannot close.
 */
const named = new Set(
  readFileSync(0, 'utf8')
    .split('\0')
    .map((file) => basename(file, '.mdx')),
);
const { library } = readContent();
for (const tree of library.trees.values()) {
  if (named.has(tree.slug)) console.log(await describeTree(tree));
}

async function describeTree(tree: FaultTree): Promise<string> {
  return [
    `### ${tree.slug}`,
    '',
    fence(await writeGraphText(tree), 'mermaid'),
    '',
    fence(printWorth(tree, library)),
    '',
  ].join('\n');
}

/** A fence one backtick longer than the longest run of them in the text. */
function fence(text: string, language = ''): string {
  const longest = Math.max(2, ...[...text.matchAll(/`+/g)].map(([run]) => run.length));
  const bar = '`'.repeat(longest + 1);
  return `${bar}${language}\n${text.trimEnd()}\n${bar}`;
}

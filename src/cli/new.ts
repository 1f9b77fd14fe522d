/**
 * Begins a tree: npm run new -- <block>/<slug> --title "What the owner sees"
 * Writes content/trees/<block>/<slug>.mdx, never over a file that is there. Exits with 0 when written, 2 when not.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { compileContent } from '#compiler/compile-content.ts';
import { loadContent } from '#compiler/load.ts';
import { readNewCall } from './new-call.ts';
import { makeTreeTemplate } from '#compiler/tree-template.ts';

process.exitCode = run(process.argv.slice(2));

function run(words: readonly string[]): number {
  const files = loadContent(process.cwd());
  const call = readNewCall(
    words,
    compileContent(files).library,
    files.map(({ file }) => file),
  );
  if (call.kind === 'refused') {
    console.error(call.message);
    return 2;
  }
  const { block, slug } = call.tree;
  const file = `content/trees/${block}/${slug}.mdx`;
  try {
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(file, makeTreeTemplate(call.tree), { flag: 'wx' });
  } catch (error) {
    console.error(`Could not write ${file}: ${error instanceof Error ? error.message : String(error)}`);
    return 2;
  }
  console.log(`Written: ${file}

Next:
  npm run dev                          shows it at /trees/${slug}/ and reloads at every save
  npm run check -- ${file}
                                       names what is wrong, and what of the template is left
  npm run check -- --worth ${slug}
                                       what the tree is worth to somebody who starts at its first node
The rest is told in src/pages/guide/write-a-tree.mdx, on the site at /guide/write-a-tree/.`);
  return 0;
}

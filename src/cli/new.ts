/**
 * Begins a tree: npm run new -- <block>/<slug> --title "What the owner sees"
 * Writes content/trees/<block>/<slug>.mdx, never over a file that is there. Exits with 0 when written, 2 when not.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { parseArgs } from 'node:util';
import { compileContent } from '#compiler/compile-content.ts';
import { loadContent, pathOfContent, shownPath } from '#compiler/load.ts';
import { suggestName } from '#compiler/nearest-name.ts';
import { idPattern, longestSlug } from '#compiler/read-attributes.ts';
import { makeTreeTemplate, type NewTree } from '#compiler/tree-template.ts';
import type { Library } from '#core/model/library.ts';

const longestTitle = 60;
const usage = 'Usage: npm run new -- <block>/<slug> --title "What the owner sees"';

/** What `npm run new` shall write, or why it cannot. */
export type NewCall =
  { readonly kind: 'write'; readonly tree: NewTree } | { readonly kind: 'refused'; readonly message: string };

/**
 * Reads the words after `npm run new --`. `files` are the content's paths: a tree that is there, or was there under another name, is
 * never written over. `since` is the day of today.
 */
export function readNewCall(
  words: readonly string[],
  { blocks, trees }: Pick<Library, 'blocks' | 'trees'>,
  files: readonly string[],
  since: string,
): NewCall {
  const { tokens } = parseArgs({
    args: [...words],
    options: { title: { type: 'string' } },
    allowPositionals: true,
    strict: false,
    tokens: true,
  });
  const unknown = tokens.find((token) => token.kind === 'option' && token.name !== 'title');
  if (unknown?.kind === 'option') return refuse(`Unexpected option \`${unknown.rawName}\`, expected --title.`);
  const places = tokens.flatMap((token) => (token.kind === 'positional' ? [token.value] : []));
  const title = tokens
    .flatMap((token) => (token.kind === 'option' ? [token.value ?? ''] : []))
    .at(-1)
    ?.trim();
  const [place] = places;
  if (place === undefined) return refuse(`Unexpected end, expected <block>/<slug>.\n${listBlocks(blocks)}`);
  if (places.length > 1) {
    return refuse(`Unexpected \`${places[1] ?? ''}\`, expected one tree; put a title of several words in quotes.`);
  }
  const [block = '', slug = '', ...rest] = place.split('/');
  if (slug === '' || rest.length > 0) {
    return refuse(`Unexpected \`${place}\`, expected <block>/<slug>.\n${listBlocks(blocks)}`);
  }
  if (!blocks.has(block)) {
    const near = suggestName(block, blocks.keys());
    return refuse(`Unexpected block \`${block}\`, expected one of those below.${near}\n${listBlocks(blocks)}`);
  }
  const problem = findSlugProblem(slug, trees, files) ?? findTitleProblem(title);
  return problem === undefined ? { kind: 'write', tree: { block, slug, title: title ?? '', since } } : refuse(problem);
}

function findSlugProblem(slug: string, trees: Library['trees'], files: readonly string[]): string | undefined {
  if (!idPattern.test(slug) || slug.length > longestSlug) {
    return `Unexpected slug \`${slug.slice(0, 40)}\`, expected small letters, digits and single hyphens, at most ${longestSlug} characters, as \`fan-stopped\`.`;
  }
  const owner = files.find((file) => file.startsWith('content/trees/') && file.endsWith(`/${slug}.mdx`));
  if (owner !== undefined)
    return `Unexpected slug \`${slug}\`, expected a new one: ${owner} is there. Nothing was written.`;
  const successor = [...trees.values()].find(({ was }) => was.includes(slug));
  return successor === undefined
    ? undefined
    : `Unexpected slug \`${slug}\`, expected a new one: its address belongs to \`${successor.slug}\`, which had that name before.`;
}

function findTitleProblem(title: string | undefined): string | undefined {
  if (title === undefined || title === '') return 'Unexpected end, expected --title "what the owner sees".';
  return title.length > longestTitle
    ? `Unexpected title of ${title.length} characters, expected at most ${longestTitle}.`
    : undefined;
}

function listBlocks(blocks: Library['blocks']): string {
  const widest = Math.max(...[...blocks.keys()].map(({ length }) => length));
  const rows = [...blocks.values()].map(({ slug, summary }) => `  ${slug.padEnd(widest)}  ${summary}`);
  return ['Blocks:', ...rows, 'None fits? Add one to content/blocks.yaml first: slug, title, summary.'].join('\n');
}

function refuse(message: string): NewCall {
  return { kind: 'refused', message: `${message}\n${usage}` };
}

/** Writes the tree that the words ask for into the project at `root`. 0 written, 2 not. */
export function run(words: readonly string[], root: string = process.cwd()): number {
  const files = loadContent(root);
  const call = readNewCall(
    words,
    compileContent(files).library,
    files.map(({ file }) => file),
    new Date().toISOString().slice(0, 10),
  );
  if (call.kind === 'refused') {
    console.error(call.message);
    return 2;
  }
  const { block, slug } = call.tree;
  const file = `content/trees/${block}/${slug}.mdx`;
  try {
    const path = pathOfContent(file, root);
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, makeTreeTemplate(call.tree), { flag: 'wx' });
  } catch (error) {
    console.error(`Could not write ${file}: ${error instanceof Error ? error.message : String(error)}`);
    return 2;
  }
  const shown = shownPath(file, root);
  console.log(`Written: ${shown}

Next:
  npm run dev                          shows it at /trees/${slug}/ and reloads at every save
  npm run check -- ${shown}
                                       names what is wrong, and what of the template is left
  npm run check -- --worth ${slug}
                                       what the tree is worth to somebody who starts at its first node
The rest is told in src/pages/guide/write-a-tree.mdx, on the site at /guide/write-a-tree/.`);
  return 0;
}

if (import.meta.main) process.exitCode = run(process.argv.slice(2));

import { parseArgs } from 'node:util';
import { suggestName } from '#compiler/nearest-name.ts';
import { idPattern } from '#compiler/read-attributes.ts';
import type { Library } from '#core/model/library.ts';
import type { NewTree } from '#compiler/tree-template.ts';

const longestSlug = 24;
const longestTitle = 60;
const usage = 'Usage: npm run new -- <block>/<slug> --title "What the owner sees"';

/** What `npm run new` shall write, or why it cannot. */
export type NewCall =
  { readonly kind: 'write'; readonly tree: NewTree } | { readonly kind: 'refused'; readonly message: string };

/**
 * Reads the words after `npm run new --`. `files` are the content's paths: a tree that is there, or was there under another name, is
 * never written over.
 */
export function readNewCall(
  words: readonly string[],
  { blocks, trees }: Pick<Library, 'blocks' | 'trees'>,
  files: readonly string[],
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
  return problem === undefined ? { kind: 'write', tree: { block, slug, title: title ?? '' } } : refuse(problem);
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

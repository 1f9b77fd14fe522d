import { readdirSync, readFileSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import type { ContentFile } from './compile-content.ts';
import { slugOf } from './compile-tree.ts';

/**
 * Finds everything under `root`/content. What the compiler knows, or somebody may have meant for it (.md, .yml), comes with its text;
 * the rest by its name alone, to be refused: other tools would run or obey it there. No link is followed, since it may lead anywhere.
 * Paths come back relative to `root`, with forward slashes.
 */
export function loadContent(root: string): readonly ContentFile[] {
  return listEntries(join(root, 'content'))
    .toSorted(({ path: one }, { path: other }) => (one < other ? -1 : 1))
    .map((entry) => ({ ...entry, file: relative(root, entry.path).split(sep).join('/') }))
    .map(({ path, isFile, file }) =>
      keepSame({
        file,
        text: isFile && isRead.test(file) ? readFileSync(path, 'utf8') : '',
        ...(isFile ? {} : { isLink: true }),
      }),
    );
}

const loadedBefore = new Map<string, ContentFile>();

/** The file as it was loaded before where its text is the same: the compiler reads no such file twice. */
function keepSame(loaded: ContentFile): ContentFile {
  const before = loadedBefore.get(loaded.file);
  if (before?.text === loaded.text && before.isLink === loaded.isLink) return before;
  loadedBefore.set(loaded.file, loaded);
  return loaded;
}

/** What the compiler knows, or somebody may have meant for it. */
const isRead = /\.(?:mdx?|ya?ml|txt|tsv)$|^content\/circuits\/.*\.(?:cir|json)$/i;

/** What systems and editors leave beside files: not sent with a change, and read by nobody. */
const leftBehind = /^(?:\.DS_Store|Thumbs\.db|desktop\.ini|\..*\.sw[a-p]|\.#.*|.*~)$/;

/** Everything in a folder and below it but folders. The recursive reading that Node offers follows links to folders. */
function listEntries(folder: string): readonly { readonly path: string; readonly isFile: boolean }[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) return listEntries(path);
    return leftBehind.test(entry.name) ? [] : [{ path, isFile: entry.isFile() }];
  });
}

/** Slugs of all trees, in the order of the files. */
export function treeSlugs(files: readonly ContentFile[]): readonly string[] {
  return files.filter(isTree).map(({ file }) => slugOf(file));
}

/** What one tree needs to be read: itself, every target, caution and table; nothing for the search. Reading every tree takes most of the time. */
export function filesOfTree(files: readonly ContentFile[], slug: string): readonly ContentFile[] {
  const forSearch = ['content/thesaurus.yaml', 'content/next-door.yaml'];
  return files.filter((each) => (isTree(each) ? slugOf(each.file) === slug : !forSearch.includes(each.file)));
}

function isTree({ file }: ContentFile): boolean {
  return file.startsWith('content/trees/');
}

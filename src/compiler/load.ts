import { readdirSync, readFileSync } from 'node:fs';
import { join, relative, resolve, sep } from 'node:path';
import type { ContentFile } from './compile-content.ts';
import { slugOf } from './compile-tree.ts';

/**
 * Finds everything in the content's folder. What the compiler knows, or somebody may have meant for it (.md, .yml), comes with its text;
 * the rest by its name alone, to be refused: other tools would run or obey it there. No link is followed, since it may lead anywhere.
 * Every path comes back as `content/…` with forward slashes, wherever the folder lies.
 */
export function loadContent(root: string): readonly ContentFile[] {
  const folder = contentFolder(root);
  return listEntries(folder)
    .toSorted(({ path: one }, { path: other }) => (one < other ? -1 : 1))
    .map((entry) => ({ ...entry, file: `content/${relative(folder, entry.path).split(sep).join('/')}` }))
    .map(({ path, isFile, file }) =>
      keepSame({
        file,
        text: isFile && isRead.test(file) ? readFileSync(path, 'utf8') : '',
        ...(isFile ? {} : { isLink: true }),
      }),
    );
}

/** The folder of the content: `content` in the project at `root`, or the one that CONTENT_DIR names, for a library of one's own. */
export function contentFolder(root: string): string {
  return resolve(root, process.env['CONTENT_DIR'] || 'content');
}

/** Where a file of the content, `content/…`, lies on the disk. */
export function pathOfContent(file: string, root: string): string {
  return join(contentFolder(root), file.slice('content/'.length));
}

/** The path of a file of the content as one writes it from the folder `root`. */
export function shownPath(file: string, root: string): string {
  return file.startsWith('content/') ? relative(root, pathOfContent(file, root)).split(sep).join('/') : file;
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

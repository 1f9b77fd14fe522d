import { readdirSync, readFileSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import type { ContentFile } from './compile-content.ts';
import { slugOf } from './compile-tree.ts';

/** Reads every file under `root`/content that the compiler knows, or that somebody may have meant for it (.md, .yml). Paths come back relative to `root`, with forward slashes. */
export function loadContent(root: string): readonly ContentFile[] {
  return readdirSync(join(root, 'content'), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && /\.(mdx?|ya?ml|txt)$/i.test(entry.name))
    .map((entry) => join(entry.parentPath, entry.name))
    .sort()
    .map((path) => ({ file: relative(root, path).split(sep).join('/'), text: readFileSync(path, 'utf8') }));
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

import { readdirSync, readFileSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import type { ContentFile } from './compile-content.ts';

/** Reads every file under `root`/content that the compiler knows, or that somebody may have meant for it (.md, .yml). Paths come back relative to `root`, with forward slashes. */
export function loadContent(root: string): readonly ContentFile[] {
  return readdirSync(join(root, 'content'), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && /\.(mdx?|ya?ml|txt)$/i.test(entry.name))
    .map((entry) => join(entry.parentPath, entry.name))
    .sort()
    .map((path) => ({ file: relative(root, path).split(sep).join('/'), text: readFileSync(path, 'utf8') }));
}

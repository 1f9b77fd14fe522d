import { readdirSync, readFileSync } from 'node:fs';
import { join, sep } from 'node:path';
import { contentTypeOf } from '#core/offline/content-type.ts';

/** A whole tree for paper repeats every one of its pages; the guide for authors is read while writing, not at the bench. */
const notForBench = /^(?:trees\/[^/]+\/all|guide\/(?:write-a-tree|reference))\//;
/** Data that is published for other programs; no page reads it. */
const forOthers = /^data\/(?:index\.json$|(?:trees|targets|cautions|schema)\/)/;

/**
 * The text of every file of a built site that a pack may hold, by path below the base, sorted. Pictures, fonts, data
 * that no page reads and pages that nobody needs at the bench are not among them. Throws where a file is not UTF-8: it could not be given back byte for byte.
 */
export function readSite(folder: string): ReadonlyMap<string, string> {
  const paths = readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .map((path) => path.split(sep).join('/'))
    .filter(
      (path) =>
        contentTypeOf(path) !== undefined && path !== 'sw.js' && !forOthers.test(path) && !notForBench.test(path),
    )
    .sort();
  return new Map(paths.map((path) => [path, readText(join(folder, path))] as const));
}

function readText(file: string): string {
  const bytes = readFileSync(file);
  const text = bytes.toString('utf8');
  if (!Buffer.from(text, 'utf8').equals(bytes)) throw new Error(`${file} is not UTF-8: it cannot be packed.`);
  return text;
}

import { createHash } from 'node:crypto';
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { type BlockOfTree, choosePack } from '#core/offline/choose-pack.ts';
import { makePack } from '#core/offline/make-pack.ts';
import { findLateAssets } from './late-assets.ts';

/** Where the packs lie below the site's base. */
export const packFolder = 'offline';
/** The pack that is fetched only after a visit to a page that needs it. */
export const latePack = 'late-parts';
/** What only the drafting page reads. */
const forDrafting = /^data\/(?:source\/|library\.json$)/;

/**
 * Writes the packs of a site into its `offline/` and returns the address of each below the base, by name. A pack is
 * JSON, compressed here so that it is small from any host, and named by a hash of its content: the same address never
 * holds another pack.
 */
export function writePacks(
  folder: string,
  site: ReadonlyMap<string, string>,
  blockOfTree: BlockOfTree,
): Readonly<Record<string, string>> {
  // The editor and the compiler of the drafting page are heavier than a block, and few will draft.
  const late = findLateAssets(
    site,
    (path) => path.startsWith('_astro/'),
    (path) => path.startsWith('draft/'),
  );
  const shelves = new Map<string, (readonly [string, string])[]>();
  for (const [path, text] of site) {
    const name = late.has(path) || forDrafting.test(path) ? latePack : choosePack(path, blockOfTree);
    const shelf = shelves.get(name) ?? [];
    shelf.push([path, text]);
    shelves.set(name, shelf);
  }
  const home = join(folder, packFolder);
  rmSync(home, { recursive: true, force: true });
  mkdirSync(home, { recursive: true });
  return Object.fromEntries([...shelves].sort().map(([name, files]) => [name, writePack(folder, name, files)]));
}

function writePack(folder: string, name: string, files: readonly (readonly [string, string])[]): string {
  const bytes = gzipSync(JSON.stringify(makePack(files)), { level: 9 });
  const hash = createHash('sha256').update(bytes).digest('hex').slice(0, 12);
  const path = `${packFolder}/${name}.${hash}.pack`;
  writeFileSync(join(folder, path), bytes);
  return path;
}

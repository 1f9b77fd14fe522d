import { choosePack, type PackOfTree } from '#core/offline/choose-pack.ts';
import { contentTypeOf } from '#core/offline/content-type.ts';
import { draftingPack, type LaterPack } from '#core/offline/later-pack.ts';
import { makePack } from '#core/offline/make-pack.ts';
import type { AstroIntegration } from 'astro';
import { isUtf8 } from 'node:buffer';
import { createHash } from 'node:crypto';
import { mkdirSync, readFileSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { gzip } from 'node:zlib';
import { build } from 'vite';
import { treePages } from './addresses.ts';
import { loadLibrary } from './library.ts';

/** Astro integration: makes the finished site work offline. Stands last, so that it sees all that others build. */
export function offlineSite(): AstroIntegration {
  return {
    name: 'offline-site',
    hooks: { 'astro:build:done': ({ dir }) => writeOffline(fileURLToPath(dir), blockOfTree()) },
  };
}

/** What a visit may bring to a device. */
export interface OfflineBounds {
  /** Bytes of all packs, compressed, that every reader stores; in a library of more the blocks are stored when they are opened or asked for. */
  readonly stored: number;
  /** Characters of all pages and data of one pack; a block of more has several. */
  readonly pack: number;
}

const usualBounds: OfflineBounds = { stored: 3_000_000, pack: 25_000_000 };

/** Packs a finished site and writes its offline worker, both into its folder; those of an earlier time are replaced. */
export async function writeOffline(
  folder: string,
  blockOfTree: BlockOfTree,
  bounds: OfflineBounds = usualBounds,
): Promise<void> {
  const site = listSite(folder);
  const packOfTree = allotTrees(folder, site, blockOfTree, bounds.pack);
  const packs = await writePacks(folder, site, packOfTree);
  const later = findLater(packs, packOfTree, blockOfTree, bounds.stored);
  const first = Object.entries(packs).flatMap(([name, pack]) => (Object.hasOwn(later, name) ? [] : pack));
  await bundleWorker(folder, {
    PRECACHE: listPrecache(folder, first),
    PACK_OF_TREE: packOfTree,
    PACKS: Object.fromEntries(Object.entries(packs).map(([name, { url }]) => [name, url])),
    LATER_PACKS: later,
  });
}

/** The block of each tree, by its slug and by those it had before. */
export type BlockOfTree = Readonly<Record<string, string>>;

/** The pack of each tree: that of its block, or where the block is large one of several, filled one after another. */
function allotTrees(folder: string, site: readonly string[], blockOfTree: BlockOfTree, most: number): PackOfTree {
  // For once each tree has a pack of its own.
  const alone = Object.fromEntries(Object.keys(blockOfTree).map((slug) => [slug, slug]));
  const lengths = new Map<string, number>();
  for (const path of site) {
    const slug = choosePack(path, alone);
    if (Object.hasOwn(blockOfTree, slug)) {
      lengths.set(slug, (lengths.get(slug) ?? 0) + statSync(join(folder, path)).size);
    }
  }
  const open = new Map<string, { number: number; length: number }>();
  return Object.fromEntries(
    Object.entries(blockOfTree).map(([slug, block]) => {
      const pack = open.get(block) ?? { number: 1, length: 0 };
      open.set(block, pack);
      const length = lengths.get(slug) ?? 0;
      if (pack.length > 0 && pack.length + length > most) Object.assign(pack, { number: pack.number + 1, length: 0 });
      pack.length += length;
      return [slug, `block-${block}${pack.number === 1 ? '' : `-${pack.number}`}`];
    }),
  );
}

/** The packs that are not part of the first visit: that of the drafting page, and all blocks where they are too much. */
function findLater(
  packs: Readonly<Record<string, WrittenPack>>,
  packOfTree: PackOfTree,
  blockOfTree: BlockOfTree,
  most: number,
): Readonly<Record<string, LaterPack>> {
  const blockOfPack = new Map(Object.entries(packOfTree).map(([slug, pack]) => [pack, blockOfTree[slug] ?? '']));
  const sum = Object.entries(packs).reduce((all, [name, { bytes }]) => (name === draftingPack ? all : all + bytes), 0);
  return Object.fromEntries(
    Object.entries(packs)
      .filter(([name]) => name === draftingPack || (sum > most && blockOfPack.has(name)))
      .map(([name, { integrity, bytes }]) => [name, { integrity, bytes, block: blockOfPack.get(name) ?? null }]),
  );
}

/** A whole tree for paper repeats every one of its pages; the guide for authors is read while writing, that for hosts at a desk. */
const notForBench = /^(?:trees\/[^/]+\/all|guide\/(?:write-a-tree|reference|host))\//;
/** Data that is published for other programs; no page reads it. */
const forOthers = /^data\/(?:index\.json$|(?:trees|targets|cautions|schema)\/)/;

/**
 * The path below the base of every file of a built site that a pack may hold, sorted. Pictures, fonts, data
 * that no page reads and pages that nobody needs at the bench are not among them.
 */
function listSite(folder: string): readonly string[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .map((path) => path.split(sep).join('/'))
    .filter(
      (path) =>
        contentTypeOf(path) !== undefined && path !== 'sw.js' && !forOthers.test(path) && !notForBench.test(path),
    )
    .sort();
}

/** Throws where a file is not UTF-8: it could not be given back byte for byte. */
function readText(file: string): string {
  const bytes = readFileSync(file);
  if (!isUtf8(bytes)) throw new Error(`${file} is not UTF-8: it cannot be packed.`);
  return bytes.toString('utf8');
}

const compress = promisify(gzip);

/** Where the packs lie below the site's base. */
const packFolder = 'offline';

interface WrittenPack {
  /** Below the base. */
  readonly url: string;
  readonly bytes: number;
  readonly integrity: string;
}

/**
 * Writes the packs of a site into its `offline/` and returns them by name. A pack is
 * JSON, compressed here so that it is small from any host, and named by a hash of its content: the same address never
 * holds another pack. One pack after another: never more than the texts of one block are in memory.
 */
async function writePacks(
  folder: string,
  site: readonly string[],
  packOfTree: PackOfTree,
): Promise<Readonly<Record<string, WrittenPack>>> {
  const read = (path: string): string => readText(join(folder, path));
  const late = findLateAssets(site, read, (path) => path.startsWith('draft/'));
  const shelves = Object.groupBy(site, (path) => (late.has(path) ? draftingPack : choosePack(path, packOfTree)));
  const home = join(folder, packFolder);
  rmSync(home, { recursive: true, force: true });
  mkdirSync(home, { recursive: true });
  const packs: Record<string, WrittenPack> = {};
  for (const name of Object.keys(shelves).sort()) {
    const files = (shelves[name] ?? []).map((path) => [path, read(path)] as const);
    const bytes = await compress(JSON.stringify(makePack(files)), { level: 9 });
    const digest = createHash('sha256').update(bytes).digest();
    const url = `${packFolder}/${name}.${digest.toString('hex').slice(0, 12)}.pack`;
    writeFileSync(join(folder, url), bytes);
    packs[name] = { url, bytes: bytes.length, integrity: sayIntegrity(digest) };
  }
  return packs;
}

/**
 * The script and style that pages other than `latePages` never lead to. Each asset's name holds a hash of its content,
 * so a text that leads to it names it.
 * @param files path below the site's base of all pages, scripts and style sheets
 * @param read gives the text of one
 * @param isLatePage tells the pages whose own assets may come later
 */
export function findLateAssets(
  files: readonly string[],
  read: (path: string) => string,
  isLatePage: (path: string) => boolean,
): ReadonlySet<string> {
  const isAsset = (path: string): boolean => path.startsWith('_astro/');
  const unreached = new Set(files.filter(isAsset));
  const inFolder = new Map([...unreached].map((asset) => [asset.slice(asset.lastIndexOf('/') + 1), asset] as const));
  const toRead = files.filter((path) => !isAsset(path) && !isLatePage(path));
  for (let path = toRead.pop(); path !== undefined; path = toRead.pop()) {
    // A page names the folder, an asset its neighbours alone.
    const named = isAsset(path) ? /(?<![\w.-])[\w.-]+\.(?:js|css)\b/gu : /_astro\/[\w.-]+\.(?:js|css)\b/gu;
    for (const [name] of read(path).matchAll(named)) {
      const asset = isAsset(path) ? inFolder.get(name) : name;
      if (asset !== undefined && unreached.delete(asset)) toRead.push(asset);
    }
  }
  return unreached;
}

/** One file that the worker fetches before it is ready. */
export interface PrecacheEntry {
  readonly url: string;
  /** null: the address itself holds a hash of the content. */
  readonly revision: string | null;
  /** Subresource integrity: whatever else a network answers with, a login page say, is refused. */
  readonly integrity: string;
}

/** The list of what is fetched on the first visit: the font, and the packs that are not for later. */
function listPrecache(folder: string, packs: readonly WrittenPack[]): readonly PrecacheEntry[] {
  const fonts = readdirSync(join(folder, 'fonts')).filter((name) => name.endsWith('.woff2'));
  return [
    ...fonts.sort().map((name) => {
      const url = `fonts/${name}`;
      const integrity = sayIntegrity(
        createHash('sha256')
          .update(readFileSync(join(folder, url)))
          .digest(),
      );
      return { url, revision: integrity, integrity };
    }),
    ...packs.map(({ url, integrity }) => ({ url, revision: null, integrity })),
  ];
}

/** The integrity value of a file by its SHA-256 digest, as the W3C's Subresource Integrity writes it. */
function sayIntegrity(digest: Buffer): string {
  return `sha256-${digest.toString('base64')}`;
}

/**
 * Bundles the offline worker into `sw.js` at the site's base, with what it has to know of this build.
 * @param constants expression in the worker's source, and the JSON value that takes its place
 */
export async function bundleWorker(folder: string, constants: Readonly<Record<string, unknown>>): Promise<void> {
  const result = await build({
    configFile: false,
    logLevel: 'error',
    publicDir: false,
    mode: 'production',
    define: {
      'process.env.NODE_ENV': JSON.stringify('production'),
      ...Object.fromEntries(Object.entries(constants).map(([name, value]) => [name, JSON.stringify(value)])),
    },
    build: {
      write: false,
      target: 'es2022',
      modulePreload: false,
      rolldownOptions: { input: 'src/offline/worker.ts', output: { format: 'iife', entryFileNames: 'sw.js' } },
    },
  });
  const outputs = [result].flat().flatMap((one) => ('output' in one ? one.output : []));
  const [script] = outputs;
  if (outputs.length !== 1 || script?.type !== 'chunk') throw new Error('The offline worker is not one script.');
  writeFileSync(join(folder, 'sw.js'), script.code);
}

/** The block of each tree of the library, by its slug and by those it had before. */
export function blockOfTree(): BlockOfTree {
  return Object.fromEntries(treePages(loadLibrary()).map(({ treeSlug, tree }) => [treeSlug, tree.block]));
}

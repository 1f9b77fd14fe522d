import { choosePack } from '#core/offline/choose-pack.ts';
import { fileOfAddress } from '#core/offline/file-of-address.ts';
import { draftingPack } from '#core/offline/later-pack.ts';
import type { StoredBlock } from '#core/offline/worker-message.ts';
import { baseAddress } from './scope.ts';
import { isSound } from './stored-version.ts';

/** The packs that are not part of the first visit lie in a cache of their own. */
const cacheName = 'halfsplit-later';

/** The body of a pack as the build made it; undefined where it is not stored, or was damaged and is thrown away. */
export async function openLater(name: string): Promise<Response | undefined> {
  const cache = await caches.open(cacheName);
  const stored = await cache.match(addressOf(name));
  if (stored === undefined || (await isSound(stored.clone(), LATER_PACKS[name]?.integrity ?? ''))) return stored;
  await cache.delete(addressOf(name));
  return undefined;
}

/** Whether a page of this version is in a later pack. */
export function isLater(path: string): boolean {
  return Object.hasOwn(LATER_PACKS, packOf(path));
}

/** Stores the pack of a page that was opened from the network, if it is one of the later ones. */
export function storePackOf(path: string): Promise<void> {
  return store(packOf(path));
}

function packOf(path: string): string {
  return choosePack(fileOfAddress(path), PACK_OF_TREE);
}

/** Stores what only the drafting page needs. */
export function storeDrafting(): Promise<void> {
  return store(draftingPack);
}

/** Stores or throws away a block, as a person wishes. */
export async function storeBlock(block: string, isWanted: boolean): Promise<void> {
  const names = Object.keys(LATER_PACKS).filter((name) => LATER_PACKS[name]?.block === block);
  if (isWanted) await Promise.all(names.map(store));
  else await Promise.all(names.map(async (name) => (await caches.open(cacheName)).delete(addressOf(name))));
}

/** What was stored of the version before is fetched for this one, so that a new version takes nothing away. */
export async function renewLater(): Promise<void> {
  await Promise.all((await listStored()).map(store));
}

/** Throws away the later packs of other versions. */
export async function dropOldLater(): Promise<void> {
  const cache = await caches.open(cacheName);
  const current = new Set(Object.keys(LATER_PACKS).map(addressOf));
  for (const { url } of await cache.keys()) if (!current.has(url)) await cache.delete(url);
}

/** Whether the drafting page's own pack is stored, and which blocks are: those of this version. */
export async function reportLater(): Promise<{
  readonly hasDrafting: boolean;
  readonly blocks: readonly StoredBlock[];
}> {
  const addresses = new Set((await (await caches.open(cacheName)).keys()).map(({ url }) => url));
  const isStored = (name: string): boolean => addresses.has(addressOf(name));
  const ofBlocks = Object.entries(LATER_PACKS).filter(([, { block }]) => block !== null);
  const byBlock = Object.groupBy(ofBlocks, ([, { block }]) => block ?? '');
  const blocks = Object.entries(byBlock).map(([block, packs = []]) => ({
    block,
    bytes: packs.reduce((sum, [, { bytes }]) => sum + bytes, 0),
    stored: packs.filter(([name]) => isStored(name)).length,
    packs: packs.length,
  }));
  return { hasDrafting: isStored(draftingPack), blocks };
}

/** The names of the packs that are stored, of whatever version. */
async function listStored(): Promise<readonly string[]> {
  const stored = await (await caches.open(cacheName)).keys();
  // Behind the name stand the hash and the ending.
  return stored.map(({ url }) => url.slice(url.lastIndexOf('/') + 1).split('.', 1)[0] ?? '');
}

/** Packs on their way, so that none is fetched twice at once. */
const underway = new Map<string, Promise<void>>();

/** Stores a later pack; one that could not be fetched is tried again at the next visit. */
function store(name: string): Promise<void> {
  const pack = Object.hasOwn(LATER_PACKS, name) ? LATER_PACKS[name] : undefined;
  if (pack === undefined) return Promise.resolve();
  const known = underway.get(name);
  if (known !== undefined) return known;
  const storing = fetchInto(addressOf(name), pack.integrity)
    .catch(() => undefined)
    .finally(() => underway.delete(name));
  underway.set(name, storing);
  return storing;
}

async function fetchInto(address: string, integrity: string): Promise<void> {
  const cache = await caches.open(cacheName);
  if ((await cache.match(address)) === undefined) await cache.add(new Request(address, { integrity }));
}

function addressOf(name: string): string {
  return new URL(PACKS[name] ?? '', baseAddress).href;
}

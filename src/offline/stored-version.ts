import { setCacheNameDetails } from 'workbox-core';
import { PrecacheController } from 'workbox-precaching';

setCacheNameDetails({ prefix: 'halfsplit' });

/**
 * The files of this version, fetched before it may take over: where one is missing or is not what the build made,
 * installing fails as a whole and the old version stays. Versions share one cache, but each asks for its own files by
 * addresses that hold a hash of their content, so neither can see the other's.
 */
export const storedVersion = new PrecacheController();
storedVersion.precache([...PRECACHE]);

/** Files that were found sound since the worker woke up. */
const sound = new Set<string>();

/**
 * Whether every file of this version is stored and sound; what a browser short of room has thrown away, or holds damaged, is fetched
 * again first.
 */
export async function completeVersion(event: ExtendableEvent): Promise<boolean> {
  const cache = await caches.open(storedVersion.strategy.cacheName);
  try {
    for (const [url, cacheKey] of storedVersion.getURLsToCacheKeys()) {
      if (!sound.has(cacheKey) || (await cache.match(cacheKey)) === undefined) await openStored(url, event);
    }
    return true;
  } catch {
    return false;
  }
}

/** A stored file as the build made it; from the network, checked and stored again, where it is gone or damaged. */
export async function openStored(path: string, event: ExtendableEvent): Promise<Response> {
  const cacheKey = storedVersion.getCacheKeyForURL(path);
  if (cacheKey === undefined) throw new Error(`${path} is not a file of this version.`);
  const integrity = storedVersion.getIntegrityForCacheKey(cacheKey);
  const open = (): Promise<Response> =>
    storedVersion.strategy.handle({ event, request: new Request(cacheKey), params: { cacheKey, integrity } });
  const stored = await open();
  if (integrity === undefined || (await isSound(stored.clone(), integrity))) {
    sound.add(cacheKey);
    return stored;
  }
  await (await caches.open(storedVersion.strategy.cacheName)).delete(cacheKey);
  return open();
}

/** Whether a body is the one of which the build wrote the integrity value, `sha256-` and the digest in base64. */
export async function isSound(response: Response, integrity: string): Promise<boolean> {
  const [name = '', expected] = integrity.split('-');
  const digest = await crypto.subtle.digest(name.replace('sha', 'SHA-'), await response.arrayBuffer());
  return btoa(String.fromCharCode(...new Uint8Array(digest))) === expected;
}

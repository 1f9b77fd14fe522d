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

/** Whether every file of this version is stored; what a browser short of room has thrown away is fetched again first. */
export async function completeVersion(event: ExtendableEvent): Promise<boolean> {
  const cache = await caches.open(storedVersion.strategy.cacheName);
  try {
    for (const [url, cacheKey] of storedVersion.getURLsToCacheKeys()) {
      if ((await cache.match(cacheKey)) === undefined) await openStored(url, event);
    }
    return true;
  } catch {
    return false;
  }
}

/** A stored file; from the network, checked and stored again, where the browser has thrown it away. */
export async function openStored(path: string, event: ExtendableEvent): Promise<Response> {
  const cacheKey = storedVersion.getCacheKeyForURL(path);
  if (cacheKey === undefined) throw new Error(`${path} is not a file of this version.`);
  const integrity = storedVersion.getIntegrityForCacheKey(cacheKey);
  return storedVersion.strategy.handle({
    event,
    request: new Request(cacheKey),
    params: { cacheKey, integrity },
  });
}

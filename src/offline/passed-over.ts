import { worker } from './scope.ts';

const cacheName = 'halfsplit-versions';
const version = 'version';
const passedOver = 'passed-over';

/**
 * Pages that were open when this version took over from another: their script is the other version's, so they get no
 * data of this one. Kept in a cache, because a worker forgets everything when it sleeps.
 */
let known: Promise<ReadonlySet<string>> | undefined;

/** To be called once, while this version is being activated. */
export async function notePassedOver(): Promise<void> {
  const cache = await caches.open(cacheName);
  const hasPredecessor = (await cache.match(version)) !== undefined;
  const clients = hasPredecessor ? await worker.clients.matchAll({ includeUncontrolled: true }) : [];
  await cache.put(passedOver, Response.json(clients.map(({ id }) => id)));
  await cache.put(version, new Response('active'));
  known = undefined;
}

export async function isPassedOver(clientId: string): Promise<boolean> {
  known ??= readPassedOver();
  return (await known).has(clientId);
}

async function readPassedOver(): Promise<ReadonlySet<string>> {
  const stored = await (await caches.open(cacheName)).match(passedOver);
  const ids: unknown = stored === undefined ? [] : await stored.json();
  return new Set(Array.isArray(ids) ? ids.filter((id) => typeof id === 'string') : []);
}

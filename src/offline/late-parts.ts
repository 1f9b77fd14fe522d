import { contentTypeOf } from '#core/offline/content-type.ts';
import type { MissingPart } from '#core/offline/worker-message.ts';
import { readPackedFile } from '#core/offline/read-packed-file.ts';
import { readPack } from './read-pack.ts';
import { baseAddress, worker } from './scope.ts';
import { isSound } from './stored-version.ts';

const cacheName = 'halfsplit-late';

/**
 * Script and style that are not part of the first fetch: from the network, while all of them are stored for the next
 * time; without network, from the store. Where neither has it, the page is told.
 */
export async function answerLatePart(path: string, event: FetchEvent): Promise<Response> {
  const kept = await findKept(path);
  if (kept !== undefined) return kept;
  try {
    const response = await fetch(event.request);
    if (response.ok) event.waitUntil(keepLateParts());
    return response;
  } catch {
    const client = await worker.clients.get(event.clientId);
    client?.postMessage({ type: 'missing-part' } satisfies MissingPart);
    return Response.error();
  }
}

/** Throws away the late parts of other versions. */
export async function dropOldLateParts(): Promise<void> {
  const cache = await caches.open(cacheName);
  for (const { url } of await cache.keys()) if (url !== addressOfPack()) await cache.delete(url);
}

/** Whether the parts that come after a visit are stored, and of this version. */
export async function hasLateParts(): Promise<boolean> {
  return (await (await caches.open(cacheName)).match(addressOfPack())) !== undefined;
}

async function findKept(path: string): Promise<Response | undefined> {
  const type = contentTypeOf(path);
  const cache = await caches.open(cacheName);
  const stored = await cache.match(addressOfPack());
  if (stored === undefined || type === undefined || LATE_PACK === null) return undefined;
  if (!(await isSound(stored.clone(), LATE_PACK.integrity))) {
    await cache.delete(addressOfPack());
    keeping = undefined;
    return undefined;
  }
  const text = readPackedFile(await readPack(stored), path);
  return text === undefined ? undefined : new Response(text, { headers: { 'Content-Type': type } });
}

let keeping: Promise<void> | undefined;

function keepLateParts(): Promise<void> {
  if (LATE_PACK === null) return Promise.resolve();
  const { integrity } = LATE_PACK;
  keeping ??= caches
    .open(cacheName)
    .then((cache) => cache.add(new Request(addressOfPack(), { integrity })))
    .catch(() => {
      // Not stored this time: the next visit tries again.
      keeping = undefined;
    });
  return keeping;
}

function addressOfPack(): string {
  return new URL(LATE_PACK?.url ?? '', baseAddress).href;
}

import { clientsClaim } from 'workbox-core';
import { PrecacheRoute } from 'workbox-precaching';
import { registerRoute } from 'workbox-routing';
import type { WorkerAnswers } from '#core/offline/worker-message.ts';
import { contentTypeOf } from '#core/offline/content-type.ts';
import { fileOfAddress } from '#core/offline/file-of-address.ts';
import { answerRequest } from './answer-request.ts';
import { forgetPacks } from './find-file.ts';
import { dropOldLater, renewLater, reportLater, storeBlock } from './later-packs.ts';
import { notePassedOver } from './passed-over.ts';
import { pathBelowBase, worker } from './scope.ts';
import { completeVersion, storedVersion } from './stored-version.ts';
import { takeOver } from './take-over.ts';

/*
 * The offline worker. How a new version comes in:
 * 1. The browser fetches it whole, beside the old one, which goes on answering. Where anything is missing, it is dropped.
 * 2. It waits. A page offers it and never takes it by itself; while a job is open the offer stands at the foot of the page.
 * 3. It takes over when a person presses “Use it now” and no other window has a job open, or when the last page was closed.
 * 4. The page that asked loads itself again; other pages are told to when it suits, and get no data of another version.
 */
clientsClaim();

worker.addEventListener('install', (event) => {
  event.waitUntil(renewLater());
});

worker.addEventListener('activate', (event) => {
  event.waitUntil(Promise.all([notePassedOver(), dropOldLater()]));
});

worker.addEventListener('message', (event) => {
  event.waitUntil(reply(event));
});

registerRoute(new PrecacheRoute(storedVersion));
registerRoute(({ url, request }) => isOurs(url, request), {
  handle: ({ event, request }) => (event instanceof FetchEvent ? answerRequest(event) : fetch(request)),
});

function isOurs(url: URL, request: Request): boolean {
  const path = pathBelowBase(url.href);
  if (path === undefined || path === 'sw.js') return false;
  return request.mode === 'navigate' || contentTypeOf(fileOfAddress(path)) !== undefined;
}

async function reply(event: ExtendableMessageEvent): Promise<void> {
  const [port] = event.ports;
  const type: unknown = event.data?.type;
  if (port === undefined) return;
  if (type === 'report') {
    const [isComplete, later] = await Promise.all([completeVersion(event), reportLater()]);
    port.postMessage({ isComplete, ...later } satisfies WorkerAnswers['report']);
  }
  if (type === 'take-over') {
    const asking = event.source instanceof Client ? event.source.id : '';
    port.postMessage({ isTaken: await takeOver(asking) } satisfies WorkerAnswers['take-over']);
  }
  if (type === 'store-block') {
    await storeBlock(String(event.data.block), event.data.isWanted === true);
    forgetPacks();
    const { blocks } = await reportLater();
    port.postMessage({ blocks } satisfies WorkerAnswers['store-block']);
  }
}

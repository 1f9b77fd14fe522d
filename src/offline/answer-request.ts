import { fileOfAddress } from '#core/offline/file-of-address.ts';
import { findFile } from './find-file.ts';
import type { Missing } from '#core/offline/worker-message.ts';
import { isLater, storeDrafting, storePackOf } from './later-packs.ts';
import { isPassedOver } from './passed-over.ts';
import { pathBelowBase, worker } from './scope.ts';

/** Names that hold a hash of their content: they cannot be mistaken for those of another version. */
const namedByContent = '_astro/';

/** Answers a request for anything below the site's base. What a page asks after the `?` is for its script to read. */
export async function answerRequest(event: FetchEvent): Promise<Response> {
  const path = pathBelowBase(event.request.url);
  if (path === undefined) return fetch(event.request);
  if (event.request.mode === 'navigate') return answerNavigation(path, event);
  return path.startsWith(namedByContent) ? answerPart(path, event) : answerData(path, event);
}

/** A page of this version; else what the network has there, such as a page that is newer; else the page that says so. */
async function answerNavigation(path: string, event: FetchEvent): Promise<Response> {
  const page = await find(path, event);
  if (page !== undefined) return page;
  if ((await find(`${path}/`, event)) !== undefined) {
    const address = new URL(event.request.url);
    address.pathname += '/';
    return Response.redirect(address.href, 301);
  }
  try {
    const response = await fetch(event.request);
    if (response.ok) event.waitUntil(storePackOf(path));
    return response;
  } catch {
    if (isLater(path)) event.waitUntil(tellMissing(event.resultingClientId, true));
    return (await findFile('404.html', event, 404).catch(() => undefined)) ?? Response.error();
  }
}

/**
 * Script or style: of this version; else from the network, while the pack of it is stored for the next time. Where
 * neither has it, the page is told.
 */
async function answerPart(path: string, event: FetchEvent): Promise<Response> {
  const part = await find(path, event);
  if (part !== undefined) return part;
  try {
    const response = await fetch(event.request);
    if (response.ok) event.waitUntil(storeDrafting());
    return response;
  } catch {
    await tellMissing(event.clientId, false);
    return Response.error();
  }
}

async function tellMissing(client: string, isPage: boolean): Promise<void> {
  (await worker.clients.get(client))?.postMessage({ type: 'missing', isPage } satisfies Missing);
}

/** Data goes to pages of this version only. A page that the network sent may be newer: so is its data. */
async function answerData(path: string, event: FetchEvent): Promise<Response> {
  if (await isPassedOver(event.clientId)) return Response.error();
  if (await isPageOfThisVersion(event)) return (await find(path, event)) ?? fetch(event.request);
  try {
    return await fetch(event.request);
  } catch {
    return (await find(path, event)) ?? Response.error();
  }
}

async function isPageOfThisVersion(event: FetchEvent): Promise<boolean> {
  const client = await worker.clients.get(event.clientId);
  const path = client === undefined ? '' : pathBelowBase(client.url);
  return path !== undefined && (await find(path, event)) !== undefined;
}

/** Undefined too where the store is gone: then the network is asked. */
function find(path: string, event: FetchEvent): Promise<Response | undefined> {
  return findFile(fileOfAddress(path), event).catch(() => undefined);
}

import type { BrowserContext } from 'playwright-core';

/**
 * Notes in `foreign` every address outside `origin` that any page, frame or worker of the context asks for, those of windows that
 * open later too. Call it before the first page.
 */
export function watchRequests(context: BrowserContext, origin: string, foreign: string[]): void {
  context.on('request', (request) => {
    if (isForeign(request.url(), origin)) foreign.push(request.url());
  });
  context.on('page', (page) => {
    page.on('websocket', (socket) => foreign.push(socket.url()));
  });
}

/** Throws where anything was noted. */
export function expectNoneForeign(foreign: readonly string[]): void {
  if (foreign.length > 0) throw new Error(`Asked another origin: ${[...new Set(foreign)].join(', ')}`);
}

/** The site's own files, and addresses that never reach a network. */
function isForeign(address: string, origin: string): boolean {
  return !address.startsWith(`${origin}/`) && !/^(?:data|blob|about):/.test(address);
}

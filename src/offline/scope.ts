// The tsconfig of this folder knows workers in general; this one is a service worker.
declare const self: ServiceWorkerGlobalScope;

/** This service worker. */
export const worker = self;

/** The address below which the site lies, with a slash at its end. */
export const baseAddress = new URL('./', self.location.href);

/** The path of an address below the site's base, or undefined where it is none of ours. */
export function pathBelowBase(address: string): string | undefined {
  const { origin, pathname } = new URL(address);
  if (origin !== baseAddress.origin || !pathname.startsWith(baseAddress.pathname)) return undefined;
  return decode(pathname.slice(baseAddress.pathname.length));
}

function decode(path: string): string | undefined {
  try {
    return decodeURIComponent(path);
  } catch {
    return undefined;
  }
}

import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { getManifest } from 'workbox-build';

/** One file that the worker fetches before it is ready. */
export interface PrecacheEntry {
  readonly url: string;
  /** null: the address itself holds a hash of the content. */
  readonly revision: string | null;
  /** Subresource integrity: whatever else a network answers with, a login page say, is refused. */
  readonly integrity: string;
}

/**
 * The list of what is fetched on the first visit, made from the built site: the packs and the font.
 * @param late address of the pack that is not part of it, where there is one
 */
export async function listPrecache(folder: string, late: string | undefined): Promise<readonly PrecacheEntry[]> {
  const { manifestEntries, warnings } = await getManifest({
    globDirectory: folder,
    globPatterns: ['offline/*.pack', 'fonts/*.woff2'],
    globIgnores: late === undefined ? [] : [late],
    dontCacheBustURLsMatching: /^offline\//u,
    maximumFileSizeToCacheInBytes: 3_000_000,
  });
  if (warnings.length > 0) throw new Error(warnings.join('\n'));
  return manifestEntries.map(({ url, revision }) => ({ url, revision, integrity: integrityOf(join(folder, url)) }));
}

/** The integrity value of a file, as the W3C's Subresource Integrity writes it. */
export function integrityOf(file: string): string {
  return `sha256-${createHash('sha256').update(readFileSync(file)).digest('base64')}`;
}

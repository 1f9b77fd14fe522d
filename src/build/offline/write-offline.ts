import { join } from 'node:path';
import type { BlockOfTree } from '#core/offline/choose-pack.ts';
import { bundleWorker } from './bundle-worker.ts';
import { integrityOf, listPrecache } from './list-precache.ts';
import { readSite } from './read-site.ts';
import { latePack, writePacks } from './write-packs.ts';

/** Packs a finished site and writes its offline worker, both into its folder; those of an earlier time are replaced. */
export async function writeOffline(folder: string, blockOfTree: BlockOfTree): Promise<void> {
  const packs = writePacks(folder, readSite(folder), blockOfTree);
  const late = packs[latePack];
  await bundleWorker(folder, {
    PRECACHE: await listPrecache(folder, late),
    BLOCK_OF_TREE: blockOfTree,
    PACKS: packs,
    LATE_PACK: late === undefined ? null : { url: late, integrity: integrityOf(join(folder, late)) },
  });
}

import { choosePack } from '#core/offline/choose-pack.ts';
import { contentTypeOf } from '#core/offline/content-type.ts';
import type { Pack } from '#core/offline/pack.ts';
import { readPackedFile } from '#core/offline/read-packed-file.ts';
import { readPack } from './read-pack.ts';
import { openStored } from './stored-version.ts';

/** Packs opened since the worker woke up. */
const opened = new Map<string, Promise<Pack>>();

/**
 * A file of this version as the host sends it, or undefined where this version has none of that name.
 * @param path below the site's base, such as `trees/psu-5v-low/index.html`
 */
export async function findFile(path: string, event: ExtendableEvent, status = 200): Promise<Response | undefined> {
  const type = contentTypeOf(path);
  const url = PACKS[choosePack(path, BLOCK_OF_TREE)];
  if (type === undefined || url === undefined) return undefined;
  const text = readPackedFile(await openPack(url, event), path);
  return text === undefined ? undefined : new Response(text, { status, headers: { 'Content-Type': type } });
}

function openPack(url: string, event: ExtendableEvent): Promise<Pack> {
  const known = opened.get(url);
  if (known !== undefined) return known;
  const opening = openStored(url, event).then(readPack);
  opened.set(url, opening);
  opening.catch(() => opened.delete(url));
  return opening;
}

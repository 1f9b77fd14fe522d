import { choosePack } from '#core/offline/choose-pack.ts';
import { contentTypeOf } from '#core/offline/content-type.ts';
import { draftingPack } from '#core/offline/later-pack.ts';
import type { Pack } from '#core/offline/pack.ts';
import { readPackedFile } from '#core/offline/read-packed-file.ts';
import { openLater } from './later-packs.ts';
import { readPack } from './read-pack.ts';
import { openStored } from './stored-version.ts';

/** Packs opened since the worker woke up. */
const opened = new Map<string, Promise<Pack | undefined>>();

/**
 * A file of this version as the host sends it, or undefined where this version has none of that name, or has it in a
 * pack that is not stored.
 * @param path below the site's base, such as `trees/psu-5v-low/index.html`
 */
export async function findFile(path: string, event: ExtendableEvent, status = 200): Promise<Response | undefined> {
  const type = contentTypeOf(path);
  if (type === undefined) return undefined;
  const home = choosePack(path, PACK_OF_TREE);
  // Which script and style the drafting page alone needs, its pack alone knows.
  for (const name of home === 'program' ? [home, draftingPack] : [home]) {
    const pack = Object.hasOwn(PACKS, name) ? await openPack(name, event) : undefined;
    const text = pack === undefined ? undefined : readPackedFile(pack, path);
    if (text !== undefined) return new Response(text, { status, headers: { 'Content-Type': type } });
  }
  return undefined;
}

/** Forgets what was opened: a pack may have been thrown away since. */
export function forgetPacks(): void {
  opened.clear();
}

function openPack(name: string, event: ExtendableEvent): Promise<Pack | undefined> {
  const known = opened.get(name);
  if (known !== undefined) return known;
  const opening = readStored(name, event);
  opened.set(name, opening);
  // One that is not stored now may be later.
  opening.then(
    (pack) => pack === undefined && opened.delete(name),
    () => opened.delete(name),
  );
  return opening;
}

async function readStored(name: string, event: ExtendableEvent): Promise<Pack | undefined> {
  if (!Object.hasOwn(LATER_PACKS, name)) return readPack(await openStored(PACKS[name] ?? '', event));
  const stored = await openLater(name);
  return stored === undefined ? undefined : readPack(stored);
}

import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { blockOfTree, type OfflineBounds, writeOffline } from '#build/offline.ts';

const sentence = 'Your entries stay in this browser.';

/** A folder with a site of its own, for one test. */
export interface OtherVersion {
  readonly folder: string;
  readonly remove: () => void;
}

/**
 * The built site as its next version may be: every page says `name` in its foot, and the offline files follow.
 * @param change what else is different, done in the folder before the offline files are written
 * @param bounds of a library that is too large to be stored whole, where it is to be tried as one
 */
export async function makeOtherVersion(
  name: string,
  change?: (folder: string) => void,
  bounds?: OfflineBounds,
): Promise<OtherVersion> {
  const folder = mkdtempSync(join(tmpdir(), 'halfsplit-version-'));
  cpSync('dist', folder, { recursive: true });
  for (const path of readdirSync(folder, { recursive: true, encoding: 'utf8' })) {
    if (!path.endsWith('.html')) continue;
    const page = readFileSync(join(folder, path), 'utf8');
    if (!page.includes(sentence)) throw new Error(`${path} has no foot.`);
    writeFileSync(join(folder, path), page.replace(sentence, `${sentence} Version ${name}.`));
  }
  change?.(folder);
  await writeOffline(folder, blockOfTree(), bounds);
  return { folder, remove: () => rmSync(folder, { recursive: true, force: true }) };
}

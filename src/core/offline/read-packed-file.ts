import type { Pack } from './pack.ts';

/**
 * The text of one file as it was packed, or undefined where the pack does not hold it.
 * @param path below the site's base, such as `trees/psu-5v-low/index.html`
 */
export function readPackedFile(pack: Pack, path: string): string | undefined {
  if (!Object.hasOwn(pack.files, path)) return undefined;
  const runs = pack.files[path] ?? [];
  const pieces: string[] = [];
  let end = 0;
  for (let index = 0; index + 1 < runs.length; index += 2) {
    const start = end + (runs[index] ?? 0);
    end = start + (runs[index + 1] ?? 0);
    pieces.push(...pack.pieces.slice(start, end));
  }
  return pieces.join('');
}

import { draftingPack } from './later-pack.ts';

/** The pack of each tree, by its slug and by those it had before. */
export type PackOfTree = Readonly<Record<string, string>>;

const collections = ['targets', 'cautions', 'units', 'parts'];

/**
 * Which pack holds a file: those of blocks hold the pages and the data of their trees; one each is for targets, cautions,
 * units and parts with the pictures; `program` for script and style; that of the drafting page for the data that only it reads; `rest` for every other page and data file. The build and the offline worker
 * both ask here, so the worker finds a file without a list of all of them.
 * @param path below the site's base
 * @example choosePack('trees/psu-5v-low/trough/index.html', { 'psu-5v-low': 'block-power' }) === 'block-power'
 */
export function choosePack(path: string, packOfTree: PackOfTree): string {
  const segments = path.split('/').map((segment) => segment.split('.', 1)[0] ?? '');
  const isData = segments[0] === 'data';
  const kind = segments[isData ? 1 : 0] ?? '';
  if (path === 'data/library.json') return draftingPack;
  if (collections.includes(kind)) return kind;
  if (kind === 'pictures' || kind === 'circuits') return 'parts';
  const slug = segments[isData ? 2 : 1] ?? '';
  if ((isData || kind === 'trees') && Object.hasOwn(packOfTree, slug)) return packOfTree[slug] ?? '';
  return /\.(?:js|css|svg|webmanifest)$/u.test(path) ? 'program' : 'rest';
}

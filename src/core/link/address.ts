/** Pages of the guide after its first. */
export const guidePages = ['method', 'measure', 'bench-work', 'part', 'write-a-tree', 'reference', 'host'] as const;
export type GuidePage = (typeof guidePages)[number];

/** Pages of which there is one each. */
export const singlePages = [
  'home',
  'trees',
  'targets',
  'cautions',
  'units',
  'parts',
  'pictures',
  'circuits',
  'hand-over',
  'data',
  'draft',
  'log',
  'guide',
] as const;

/** Something that has a page, or a file of published data. */
export type Place =
  | { readonly kind: (typeof singlePages)[number] }
  /** The first page, asked for these words. */
  | { readonly kind: 'search'; readonly query: string }
  | { readonly kind: 'tree'; readonly tree: string }
  /** Every step of a tree in full, for paper. */
  | { readonly kind: 'whole-tree'; readonly tree: string }
  | { readonly kind: 'node'; readonly tree: string; readonly node: string }
  /** The text of a tree's graph. */
  | { readonly kind: 'graph'; readonly tree: string }
  /** Picture for readers of links: of a tree, or of one of its causes. */
  | { readonly kind: 'preview'; readonly tree: string; readonly node?: string }
  | { readonly kind: 'target' | 'caution' | 'unit' | 'part' | 'circuit'; readonly slug: string }
  | { readonly kind: 'guide-page'; readonly page: GuidePage }
  | { readonly kind: 'data-file'; readonly of: 'trees' | 'targets' | 'cautions'; readonly slug: string }
  /** What the pages' script knows of a tree, named by a hash of it. */
  | { readonly kind: 'tree-map'; readonly tree: string; readonly hash: string }
  /** The feed of new trees, and the list of all pages. */
  | { readonly kind: 'feed' | 'sitemap' }
  | { readonly kind: 'data-index' }
  | { readonly kind: 'data-schema'; readonly of: 'index' | 'tree' | 'target' | 'caution' };

/**
 * The address of a page below `base` (`/` or `/sub-path/`), the only place where addresses are made.
 * @example addressOf({ kind: 'node', tree: 'psu-5v-low', node: 'trough' }, '/') === '/trees/psu-5v-low/trough/'
 */
export function addressOf(place: Place, base: string): string {
  const root = base.endsWith('/') ? base : `${base}/`;
  switch (place.kind) {
    case 'home':
      return root;
    case 'search':
      return `${root}?q=${encodeURIComponent(place.query)}`;
    case 'tree':
      return `${root}trees/${place.tree}/`;
    case 'graph':
      return `${root}trees/${place.tree}/graph.mmd`;
    case 'whole-tree':
      return `${root}trees/${place.tree}/all/`;
    case 'node':
      return `${root}trees/${place.tree}/${place.node}/`;
    case 'preview':
      return `${root}previews/${place.tree}${place.node === undefined ? '' : `/${place.node}`}.png`;
    case 'target':
    case 'caution':
    case 'unit':
    case 'part':
    case 'circuit':
      return `${root}${place.kind}s/${place.slug}/`;
    case 'trees':
    case 'targets':
    case 'cautions':
    case 'units':
    case 'parts':
    case 'pictures':
    case 'circuits':
    case 'hand-over':
    case 'draft':
    case 'data':
    case 'log':
    case 'guide':
      return `${root}${place.kind}/`;
    case 'guide-page':
      return `${root}guide/${place.page}/`;
    case 'data-file':
      return `${root}data/${place.of}/${place.slug}.json`;
    case 'tree-map':
      return `${root}data/maps/${place.tree}.${place.hash}.json`;
    case 'feed':
    case 'sitemap':
      return `${root}${place.kind}.xml`;
    case 'data-index':
      return `${root}data/index.json`;
    case 'data-schema':
      return `${root}data/schema/${place.of}.json`;
  }
}

/** Something that has a page. */
export type Place =
  | { readonly kind: 'home' }
  | { readonly kind: 'tree'; readonly tree: string }
  | { readonly kind: 'node'; readonly tree: string; readonly node: string }
  | { readonly kind: 'target' | 'caution' | 'board'; readonly slug: string }
  | { readonly kind: 'targets' | 'cautions' | 'boards' | 'hand-over' | 'draft' };

/**
 * The address of a page below `base` (`/` or `/sub-path/`), the only place where addresses are made.
 * @example addressOf({ kind: 'node', tree: 'psu-5v-low', node: 'trough' }, '/') === '/trees/psu-5v-low/trough/'
 */
export function addressOf(place: Place, base: string): string {
  const root = base.endsWith('/') ? base : `${base}/`;
  switch (place.kind) {
    case 'home':
      return root;
    case 'tree':
      return `${root}trees/${place.tree}/`;
    case 'node':
      return `${root}trees/${place.tree}/${place.node}/`;
    case 'target':
    case 'caution':
    case 'board':
      return `${root}${place.kind}s/${place.slug}/`;
    case 'targets':
    case 'cautions':
    case 'boards':
    case 'hand-over':
    case 'draft':
      return `${root}${place.kind}/`;
  }
}

import type { TreeMap } from '#core/link/tree-map.ts';

/** The tree's map that the build put into the page, or undefined on a page without one. */
export function readTreeMap(): TreeMap | undefined {
  const text = document.querySelector('script.tree-map')?.textContent;
  if (text === undefined || text === null) return undefined;
  // Written by our own build into our own page: the one boundary where a parsed value is believed.
  return JSON.parse(text) as TreeMap;
}

/** Path below which the site lies: `/` or `/sub-path/`. */
export function basePath(): string {
  return document.documentElement.dataset['base'] ?? '/';
}

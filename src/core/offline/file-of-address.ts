/**
 * The file that a static host sends for a path below the site's base: a folder's `index.html`, else the path as it is.
 * @example fileOfAddress('trees/psu-5v-low/') === 'trees/psu-5v-low/index.html'
 */
export function fileOfAddress(path: string): string {
  return path === '' || path.endsWith('/') ? `${path}index.html` : path;
}

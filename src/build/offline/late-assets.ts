/**
 * The script and style that pages other than `latePages` never lead to. Each asset's name holds a hash of its content,
 * so a text that leads to it names it.
 * @param files path below the site's base and text of all pages, scripts and style sheets
 * @param isAsset tells an asset from a page
 * @param isLatePage tells the pages whose own assets may come later
 */
export function findLateAssets(
  files: ReadonlyMap<string, string>,
  isAsset: (path: string) => boolean,
  isLatePage: (path: string) => boolean,
): ReadonlySet<string> {
  const unreached = new Set([...files.keys()].filter(isAsset));
  const toRead = [...files].filter(([path]) => !isAsset(path) && !isLatePage(path)).map(([, text]) => text);
  for (let text = toRead.pop(); text !== undefined; text = toRead.pop()) {
    for (const asset of unreached) {
      if (!text.includes(asset.slice(asset.lastIndexOf('/') + 1))) continue;
      unreached.delete(asset);
      toRead.push(files.get(asset) ?? '');
    }
  }
  return unreached;
}

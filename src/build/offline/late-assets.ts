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
  const byName = new Map(
    [...files.keys()].filter(isAsset).map((path) => [path.slice(path.lastIndexOf('/') + 1), path]),
  );
  const toRead = [...files].filter(([path]) => !isAsset(path) && !isLatePage(path)).map(([, text]) => text);
  for (let text = toRead.pop(); text !== undefined; text = toRead.pop()) {
    for (const [name] of text.matchAll(fileName)) {
      const asset = byName.get(name);
      if (asset === undefined) continue;
      byName.delete(name);
      toRead.push(files.get(asset) ?? '');
    }
  }
  return new Set(byName.values());
}

/** A name as the bundler makes it, in HTML, in a style sheet and in script. */
const fileName = /[\w.@~-]+\.(?:js|css)(?![\w.@~-])/gu;

/** What the bundler knows of a module: Rollup's `ModuleInfo`, as far as it is asked here. */
interface ModuleInfo {
  readonly isEntry: boolean;
  readonly importers: readonly string[];
}

/**
 * Names the bundle of a module by the pages whose script imports it: what every page has, what the pages of a tree share with others,
 * what is theirs alone. Such a bundle is loaded whole by every page that it is named after: smaller together than in twenty
 * files. null leaves a module to the bundler: what one page alone has, and what comes with a press.
 */
export function nameBundle(
  module: string,
  bundler: { readonly getModuleInfo: (module: string) => ModuleInfo | null },
): string | null {
  const seen = new Set([module]);
  const pages: string[] = [];
  for (const id of seen) {
    const info = bundler.getModuleInfo(id);
    if (info?.isEntry === true) pages.push(id);
    for (const importer of info?.importers ?? []) seen.add(importer);
  }
  if (pages.some((page) => page.includes('/src/layouts/'))) return 'every-page';
  const ofTrees = pages.filter((page) => page.includes('/src/pages/trees/[tree]/'));
  if (ofTrees.length === 0) return null;
  return ofTrees.length === pages.length ? 'tree-page' : 'shared';
}

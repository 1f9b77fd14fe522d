/** What the bundler knows of a module: Rollup's `ModuleInfo`, as far as it is asked here. */
interface ModuleInfo {
  readonly isEntry: boolean;
  readonly importers: readonly string[];
  /** Modules that fetch it by `import()`. */
  readonly dynamicImporters: readonly string[];
}

interface Bundler {
  readonly getModuleInfo: (module: string) => ModuleInfo | null;
}

/**
 * Names the bundle of a module by the pages whose script imports it: what every page has, what the pages of a tree share with others,
 * what is theirs alone. Such a bundle is loaded whole by every page that it is named after: smaller together than in twenty
 * files. null leaves a module to the bundler: what one page alone has, and what comes with a press.
 */
export function nameBundle(module: string, bundler: Bundler): string | null {
  const { pages } = findEntries(module, bundler);
  if (pages.some((page) => page.includes('/src/layouts/'))) return 'every-page';
  const ofTrees = pages.filter((page) => page.includes('/src/pages/trees/[tree]/'));
  if (ofTrees.length === 0) return null;
  return ofTrees.length === pages.length ? 'tree-page' : 'shared';
}

/**
 * Names the bundle of what the log and the hand-over import at once and a step with a press: what judges readings, what writes the
 * log, and what both need. Else the log would come in twenty files.
 */
export function namePressBundle(module: string, bundler: Bundler): string | null {
  const { pages, presses } = findEntries(module, bundler);
  if (presses.length === 0 || !pages.some((page) => /\/src\/pages\/(?:log|hand-over)\//.test(page))) return null;
  const isJudging = presses.some((press) => /\/(?:walk\/engine-parts|reading\/open-desk)\.ts$/.test(press));
  const isWriting = presses.some((press) => press.endsWith('/recorder/recorder.ts'));
  if (!isJudging) return 'log';
  return isWriting ? 'answers' : 'readings';
}

/** The entries that import a module, directly or not: scripts of pages, and what they fetch by `import()`. */
function findEntries(
  module: string,
  bundler: Bundler,
): { readonly pages: readonly string[]; readonly presses: readonly string[] } {
  const seen = new Set([module]);
  const pages: string[] = [];
  const presses: string[] = [];
  for (const id of seen) {
    const info = bundler.getModuleInfo(id);
    if (info?.isEntry === true) pages.push(id);
    else if (info !== null && info.dynamicImporters.length > 0) presses.push(id);
    for (const importer of info?.importers ?? []) seen.add(importer);
  }
  return { pages, presses };
}

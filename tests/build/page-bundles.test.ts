import { describe, expect, it } from 'vitest';
import { nameBundle } from '#build/page-bundles.ts';

const layout = '/site/src/layouts/Sheet.astro?script';
const step = '/site/src/pages/trees/[tree]/[node].astro?script';
const tree = '/site/src/pages/trees/[tree]/index.astro?script';
const log = '/site/src/pages/log/index.astro?script';

/** Importers of each module; those of `import()` are not among them. */
const importers: Readonly<Record<string, readonly string[]>> = {
  [layout]: [],
  [step]: [],
  [tree]: [],
  [log]: [],
  'node-walk': [step, tree],
  'log-page': [log],
  storage: ['node-walk', 'log-page'],
  helper: ['node-walk', layout],
  'share-desk': [],
  'in-a-circle': ['circle', 'node-walk'],
  circle: ['in-a-circle'],
};

function name(module: string): string | null {
  return nameBundle(module, {
    getModuleInfo: (id) => {
      const found = importers[id];
      return found === undefined ? null : { isEntry: id.startsWith('/site/'), importers: found };
    },
  });
}

describe('the bundle of a module', () => {
  it.each([
    ['node-walk', 'tree-page', 'the pages of a tree alone import it'],
    ['circle', 'tree-page', 'they import it in a circle'],
    ['storage', 'shared', 'they and the log import it'],
    ['helper', 'every-page', 'the layout of every page imports it'],
    ['log-page', null, 'one page alone imports it'],
    ['share-desk', null, 'it comes with a press'],
    ['never-heard-of', null, 'nothing is known of it'],
  ])('of %s is %s: %s', (module, bundle, _why) => {
    expect(name(module)).toBe(bundle);
  });
});

import { describe, expect, it } from 'vitest';
import { nameBundle, namePressBundle } from '#build/page-bundles.ts';

const layout = '/site/src/layouts/Sheet.astro?script';
const step = '/site/src/pages/trees/[tree]/[node].astro?script';
const tree = '/site/src/pages/trees/[tree]/index.astro?script';
const log = '/site/src/pages/log/index.astro?script';
const engine = '/site/src/browser/walk/engine-parts.ts';
const recorder = '/site/src/browser/recorder/recorder.ts';
const share = '/site/src/browser/share/share-desk.ts';

/** Importers of each module; what is fetched by `import()` has none. */
const importers: Readonly<Record<string, readonly string[]>> = {
  [layout]: [],
  [step]: [],
  [tree]: [],
  [log]: [],
  [engine]: [],
  [recorder]: [],
  [share]: [],
  'node-walk': [step, tree],
  'log-page': [log],
  storage: ['node-walk', 'log-page'],
  helper: ['node-walk', layout],
  'in-a-circle': ['circle', 'node-walk'],
  circle: ['in-a-circle'],
  database: ['log-page', recorder],
  judge: ['log-page', engine],
  say: ['judge', 'database'],
  copy: [share],
};

const bundler = {
  getModuleInfo: (id: string) => {
    const found = importers[id];
    const isPressed = id === engine || id === recorder || id === share;
    return found === undefined
      ? null
      : { isEntry: id.endsWith('?script'), importers: found, dynamicImporters: isPressed ? ['node-walk'] : [] };
  },
};

describe('the bundle of what comes with a page', () => {
  it.each([
    ['node-walk', 'tree-page', 'the pages of a tree alone import it'],
    ['circle', 'tree-page', 'they import it in a circle'],
    ['storage', 'shared', 'they and the log import it'],
    ['helper', 'every-page', 'the layout of every page imports it'],
    ['log-page', null, 'one page alone imports it'],
    [share, null, 'it comes with a press'],
    ['never-heard-of', null, 'nothing is known of it'],
  ])('of %s is %s: %s', (module, bundle, _why) => {
    expect(nameBundle(module, bundler)).toBe(bundle);
  });
});

describe('the bundle of what the log has and a step fetches with a press', () => {
  it.each([
    ['database', 'log', 'a press writes by it'],
    ['judge', 'readings', 'a press judges by it'],
    ['say', 'answers', 'both need it'],
    ['log-page', null, 'no press fetches it'],
    ['copy', null, 'the log does not import it'],
  ])('of %s is %s: %s', (module, bundle, _why) => {
    expect(namePressBundle(module, bundler)).toBe(bundle);
  });
});

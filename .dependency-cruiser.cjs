/** The rooms of core from the ground up: each may know itself and those of the lines above its own. */
const coreOrder = [
  ['model'],
  ['quantity', 'offline'],
  ['reading', 'figure', 'search'],
  ['circuit'],
  // What was answered is evidence, and evidence decides what an answer is worth: these two know each other.
  ['answer', 'diagnosis'],
  ['link'],
  ['post', 'page'],
  ['bench-log', 'log'],
];

const coreRules = coreOrder.flatMap((rooms, level) =>
  rooms.map((room) => {
    const below = coreOrder.slice(0, level).flat();
    const known = [room, ...below, ...(rooms.includes('answer') ? rooms : [])];
    return {
      name: `core-${room}`,
      comment: `core/${room} knows ${below.join(', ') || 'nothing'}: move what both need into a lower room.`,
      severity: 'error',
      from: { path: `^src/core/${room}/` },
      to: { path: '^src/core/', pathNot: `^src/core/(${known.join('|')})/` },
    };
  }),
);

/** The architecture as rules: each comment tells the way out. @type {import('dependency-cruiser').IConfiguration} */
module.exports = {
  forbidden: [
    ...coreRules,
    {
      name: 'core-rooms-are-stated',
      comment: 'A new room of core takes its place in `coreOrder` above.',
      severity: 'error',
      from: { path: '^src/core/', pathNot: `^src/core/(${coreOrder.flat().join('|')})/` },
      to: {},
    },
    {
      name: 'kit-at-the-bottom',
      comment: 'The kit serves every element of the page and knows none.',
      severity: 'error',
      from: { path: '^src/browser/kit/' },
      to: { path: '^src/browser/', pathNot: '^src/browser/kit/' },
    },
    {
      name: 'core-stands-alone',
      comment: 'core imports nothing outside itself but small pure libraries. Pass in what it needs.',
      severity: 'error',
      from: { path: '^src/core/' },
      to: { pathNot: ['^src/core/', '^node_modules/(fuse\\.js|valibot|dagre-d3-es)/'] },
    },
    {
      name: 'compiler-imports-core',
      comment: 'compiler imports core and its parsing libraries. Only load.ts touches the file system.',
      severity: 'error',
      from: { path: '^src/compiler/' },
      to: { path: '^src/(build|cli|browser|offline|components|layouts|pages)/' },
    },
    {
      name: 'compiler-reads-files-in-load-only',
      comment: 'The compiler runs in the page too: reading files belongs in load.ts.',
      severity: 'error',
      from: { path: '^src/compiler/', pathNot: '^src/compiler/load\\.ts$' },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'browser-imports-core',
      comment: 'browser imports core, and the compiler on the drafting page only.',
      severity: 'error',
      from: { path: '^src/browser/', pathNot: '^src/browser/draft/' },
      to: { path: '^src/(compiler|build|cli|components|layouts|pages)/' },
    },
    {
      name: 'offline-imports-core',
      comment:
        'The offline worker knows core and Workbox. What it has to know of a build is put in by src/build/offline.ts.',
      severity: 'error',
      from: { path: '^src/offline/' },
      to: { pathNot: ['^src/(offline|core)/', '^node_modules/workbox-'] },
    },
    {
      name: 'nothing-imports-offline',
      comment: 'The worker is a program of its own: share what both need through core.',
      severity: 'error',
      from: { pathNot: '^src/offline/' },
      to: { path: '^src/offline/' },
    },
    {
      name: 'build-and-cli-import-core-and-compiler',
      comment: 'build and cli stand below pages and components.',
      severity: 'error',
      from: { path: '^src/(build|cli)/' },
      to: { path: '^src/(browser|components|layouts|pages)/' },
    },
    {
      name: 'nothing-imports-cli',
      comment: 'A command stands on build, compiler and core; what another part needs of it belongs there.',
      severity: 'error',
      from: { path: '^src/', pathNot: '^src/cli/' },
      to: { path: '^src/cli/' },
    },
    {
      name: 'nothing-imports-pages',
      comment: 'Pages are the end of the line: move what is shared into components or core.',
      severity: 'error',
      from: {},
      to: { path: '^src/pages/' },
    },
    {
      name: 'src-does-not-know-tests',
      comment: 'Test helpers stay in tests.',
      severity: 'error',
      from: { path: '^src/' },
      to: { path: '^tests/' },
    },
    {
      name: 'no-circles',
      comment: 'Two files that need each other are one concept, or need a third.',
      severity: 'error',
      from: {},
      to: { circular: true },
    },
  ],
  options: {
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    doNotFollow: { path: 'node_modules' },
    exclude: { path: ['^tests/fixtures/', '\\.astro$'] },
    enhancedResolveOptions: { exportsFields: ['exports'], conditionNames: ['import', 'default'] },
  },
};

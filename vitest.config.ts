import { defineConfig } from 'vitest/config';

// Two projects, so that whoever runs the tests of the core alone does not wait for a build of the site.
const ofTheSite = ['tests/site/**/*.test.ts', 'tests/journeys/**/*.test.ts'];
const withoutBuild = 'tests/site/graph-labels.test.ts';

export default defineConfig({
  test: {
    testTimeout: 60_000,
    hookTimeout: 180_000,
    // Left alone, one core stays free for a watcher: half of two.
    maxWorkers: '100%',
    // Files of one worker share what they import, the library that `loadLibrary` compiled once, and the browser.
    isolate: false,
    projects: [
      {
        extends: true,
        test: {
          name: 'units',
          include: ['tests/**/*.test.ts'],
          exclude: ['tests/journeys/**', 'tests/site/!(graph-labels).test.ts'],
        },
      },
      {
        extends: true,
        test: {
          name: 'built site',
          include: ofTheSite,
          exclude: [withoutBuild],
          globalSetup: ['tests/site/built-site.ts'],
          // With other programs busy a browser takes its time.
          testTimeout: 240_000,
          expect: { poll: { timeout: 60_000 } },
        },
      },
    ],
  },
});

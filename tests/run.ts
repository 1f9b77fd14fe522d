import { execFileSync, spawnSync } from 'node:child_process';
import { findChromium } from './find-chromium.ts';

// npm test: everything that must hold, quick checks first. `npm test -- <vitest arguments>` runs only vitest with them.
const only = process.argv.slice(2);

const steps: readonly (readonly [name: string, command: string, ...args: readonly string[]])[] = [
  ['format', 'prettier', '--check', '--log-level', 'warn', '.'],
  ['lint', 'biome', 'lint', '--error-on-warnings'],
  ['types', 'astro', 'check', '--minimumFailingSeverity', 'warning'],
  ['types of core', 'tsc', '-p', 'src/core/tsconfig.json'],
  ['types of the offline worker', 'tsc', '-p', 'src/offline/tsconfig.json'],
  ['import boundaries', 'depcruise', 'src', 'tests', '--output-type', 'err'],
  ['unused code', 'knip'],
  ['code for tests alone', 'knip', '--production', '--exclude', 'dependencies,unlisted,unresolved,binaries'],
  ['content', 'node', 'src/cli/check.ts'],
];

if (only.length === 0) {
  for (const [name, command, ...args] of steps) {
    console.log(`\n── ${name}`);
    const { status } = spawnSync(command, args, { stdio: 'inherit' });
    if (status !== 0) {
      console.error(`\n${name}: failed`);
      process.exit(status ?? 1);
    }
  }
}

console.log('\n── tests');
findChromium();
execFileSync('vitest', ['run', ...only], { stdio: 'inherit' });
